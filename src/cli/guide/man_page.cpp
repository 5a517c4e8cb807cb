#include "cli/guide/man_page.hpp"

#include <fmt/format.h>

#include <cctype>

namespace halfsplit::cli {

namespace {

// Text as it stands: what the formatter would take for its own is escaped. A plain "-" would become a hyphen
// that nobody can copy into a shell.
std::string roff(const std::string& text) {
    std::string result;
    for (const char c : text) {
        if (c == '\\') {
            result += "\\e";
        } else if (c == '-') {
            result += "\\-";
        } else if (c == '\'') {
            result += "\\(aq";
        } else if (c == '^' || c == '~') {
            result += c == '^' ? "\\(ha" : "\\(ti";
        } else if (c == '"') {
            result += "\\(dq";
        } else {
            result += c;
        }
    }
    return result.rfind('.', 0) == 0 ? "\\&" + result : result;
}

std::string bold(const std::string& text) {
    return "\\fB" + roff(text) + "\\fR";
}
std::string italic(const std::string& text) {
    return "\\fI" + roff(text) + "\\fR";
}

std::string value_of(const GuideValue& value) {
    std::string words;
    for (const std::string& choice : value.choices) words += (words.empty() ? "" : "|") + bold(choice);
    if (value.kind == GuideValue::Kind::Choice) return words;
    return italic(value.kind == GuideValue::Kind::File && value.endings.size() == 1
                      ? value.name + value.endings.front()
                      : value.name);
}

std::string names_of(const GuideOption& option) {
    std::string names;
    for (const std::string& name : option.names) names += (names.empty() ? "" : ", ") + bold(name);
    if (option.value.kind != GuideValue::Kind::None) names += " " + value_of(option.value);
    return names;
}

std::string described(const GuideOption& option) {
    std::string text = roff(option.description);
    if (!option.value.range.empty()) text += " (" + roff(option.value.range) + ")";
    if (option.required) text += "; has to be given";
    return text;
}

std::string file_endings(const GuideValue& value) {
    std::string text;
    for (const std::string& ending : value.endings) text += (text.empty() ? " (" : ", ") + roff(ending);
    return text.empty() ? text : text + ")";
}

std::string options_text(const std::vector<GuideOption>& options) {
    std::string text;
    for (const GuideOption& option : options)
        text += ".TP\n" + names_of(option) + "\n" + described(option) + "\n";
    return text;
}

std::string positionals_text(const std::vector<GuideOption>& positionals) {
    std::string text;
    for (const GuideOption& one : positionals)
        text += ".TP\n" + italic(one.names.front()) + (one.repeated ? " ..." : "") + "\n" + described(one) +
                file_endings(one.value) + "\n";
    return text;
}

std::string in_capitals(std::string text) {
    for (char& c : text) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return text;
}

std::string header(const std::string& title, const GuideProgram& program) {
    return fmt::format(
        ".\\\" Made from the program's own help: changes belong there.\n"
        ".TH {} 1 \"\" \"{} {}\" \"User Commands\"\n.nh\n.ad l\n",
        in_capitals(roff(title)), program.name, program.version);
}

std::string exit_section(const std::vector<std::string>& exits) {
    std::string text = ".SH EXIT STATUS\n";
    for (const std::string& exit : exits) {
        const auto space = exit.find(' ');
        text += ".TP\n" + bold(exit.substr(0, space)) + "\n" + roff(exit.substr(space + 1)) + "\n";
    }
    return text;
}

// What the code and the installation know, and the parser does not.
std::string surroundings() {
    return R"(.SH ENVIRONMENT
.TP
.B COLUMNS
width of the text where no terminal tells it; 80 without it
.TP
.B NO_COLOR
where it is set and not empty, nothing is shown in bold
.TP
.B TERM
.B dumb
means a terminal that can only write lines: nothing in bold, no bell
.SH FILES
Nothing is read or written but what the command line names and the libraries that a harness file includes. Paths below
are from the prefix of the installation, mostly
.I /usr
or
.IR /usr/local .
.TP
.I share/doc/halfsplit/docs/
the documents that the help names, such as
.I docs/reference/harness\-format.md
.TP
.I share/halfsplit/schema/
a JSON Schema for every input and output
.TP
.I share/halfsplit/demo/
invented harness files, wire sheets and jobs to try things on
)";
}

std::string example_section(const std::vector<std::string>& examples) {
    std::string text = ".SH EXAMPLES\n.nf\n";
    for (const std::string& example : examples) text += bold(example) + "\n";
    return text + ".fi\n";
}

std::string synopsis(const GuideProgram& program, const GuideCommand& command) {
    std::string text = ".SH SYNOPSIS\n" + bold(program.name + " " + command.name);
    for (const GuideOption& option : command.options) {
        if (option.required) text += " " + names_of(option);
    }
    text += " [" + italic("options") + "]";
    for (const GuideOption& one : command.positionals) {
        const std::string name = italic(one.names.front()) + (one.repeated ? "..." : "");
        text += one.required ? " " + name : " [" + name + "]";
    }
    return text + "\n";
}

std::string see_also(const std::vector<std::string>& pages) {
    std::string text = ".SH SEE ALSO\n";
    for (std::size_t i = 0; i < pages.size(); ++i)
        text += ".BR " + roff(pages[i]) + " (1)" + (i + 1 < pages.size() ? "," : "") + "\n";
    return text;
}

// Those of the program that a command does not have itself.
std::vector<GuideOption> own_of_all(const GuideProgram& program) {
    std::vector<GuideOption> options;
    for (const GuideOption& option : program.options) {
        if (option.names.back() != "--help") options.push_back(option);
    }
    return options;
}

}  // namespace

std::string man_page(const GuideProgram& program) {
    std::string text = header(program.name, program);
    text +=
        ".SH NAME\nhalfsplit \\- find the break in a vehicle\\(aqs data\\-bus wiring in the least labour\n";
    text += ".SH SYNOPSIS\n" + bold(program.name) + " [" + italic("options") + "] " + italic("command") +
            " ...\n";
    text += R"(.SH DESCRIPTION
Somewhere in the chain of wire pairs, connectors, splices, bridge plugs and modules of one data bus there is an open, a bad
joint or a short, and every place costs minutes or hours to reach.
.B halfsplit
knows the harness as a graph and what each place costs given what is already open. It says where to probe next and why,
takes each reading, keeps a log that survives anything, and ends with the fault proven, the repair proven and every panel
back on.
.PP
Where work can hurt someone (airbags, high voltage, live circuits, under a vehicle) the procedure of the vehicle\(aqs maker,
local rules and licensed practice come first.
.SH COMMANDS
)";
    std::vector<std::string> pages, examples;
    for (const GuideCommand& command : program.commands) {
        text += ".TP\n" + bold(command.name) + "\n" + roff(command.description) + "\n";
        pages.push_back(program.name + "-" + command.name);
        if (!command.examples.empty()) examples.push_back(command.examples.front());
    }
    text += ".SH OPTIONS\n" + options_text(program.options);
    return text + exit_section(program.exits) + surroundings() + example_section(examples) + see_also(pages);
}

std::string man_page(const GuideProgram& program, const GuideCommand& command) {
    std::string text = header(program.name + "-" + command.name, program);
    text +=
        ".SH NAME\n" + roff(program.name + "-" + command.name) + " \\- " + roff(command.description) + "\n";
    text += synopsis(program, command);
    text += ".SH DESCRIPTION\n";
    for (const std::string& note : command.notes) text += ".PP\n" + roff(note) + "\n";
    text += positionals_text(command.positionals) + ".SH OPTIONS\n" + options_text(command.options);
    text += ".SS For every command\n" + options_text(own_of_all(program));
    text += exit_section(command.exits.empty() ? program.exits : command.exits) + surroundings();
    return text + example_section(command.examples) + see_also({program.name});
}

}  // namespace halfsplit::cli
