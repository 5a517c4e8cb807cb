// The command line as plain data, taken from the parser's own model: what manual pages and completions are
// written from.
#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace halfsplit::cli {

// What stands behind an option. A type named "FILE.job" in the help is a file with that ending, ".json" one
// at a place of its own, ".wires|.csv" one of several; "{a,b}" or "a|b" a word out of a fixed set; "ID" the
// id of a finding.
struct GuideValue {
    enum class Kind { None, Text, Number, Choice, File };

    Kind kind = Kind::None;
    std::string name;                  // as a page shows it: FILE, N, TEXT; empty for a choice
    std::string range;                 // of a number, in words: "30 to 400"; empty: any
    std::vector<std::string> choices;  // of a choice, and the ids of findings
    std::vector<std::string> endings;  // of a file, with the dot; empty: any
};

struct GuideOption {
    std::vector<std::string> names;  // "-o", "--output"; of a positional its one name, such as "HARNESS"
    std::string description;
    GuideValue value;
    bool required = false, repeated = false;
};

struct GuideCommand {
    std::string name, description;
    std::vector<GuideOption> positionals, options;
    std::vector<std::string> notes;  // sentences below the options, exit codes left out
    std::vector<std::string> exits;  // "0 sound", "1 findings (warnings count)"; empty: those of the program
    std::vector<std::string> examples;  // command lines
};

struct GuideProgram {
    std::string name, description, version;
    std::vector<GuideOption> options;  // before or behind the name of any command
    std::vector<std::string> exits;
    std::vector<GuideCommand> commands;
};

// Of a parser that is set up. Options that its help does not show are left out.
GuideProgram guide_model(const CLI::App& program);

// Of this program.
GuideProgram guide_model();

}  // namespace halfsplit::cli
