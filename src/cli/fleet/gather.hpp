// Which files are meant by what stands on the command line: files, folders, patterns, lists, standard input.
#pragma once

#include "halfsplit/base/files.hpp"
#include "halfsplit/base/finding.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::cli {

inline constexpr std::size_t no_folder = static_cast<std::size_t>(-1);

struct Input {
    std::string path;                // "-" for standard input
    std::size_t folder = no_folder;  // which of Gathered::folders it was found in
    std::optional<Finding> trouble;  // nothing can be read there, and why
};

struct Gathered {
    std::vector<Input> inputs;
    std::vector<std::string> folders;  // those named, in order
};

// What folders are gone through for.
struct Sought {
    std::string ending = ".json";
    std::string what = "harness file";
};

// In the order of the command line; what a folder or a pattern stands for by name; each file once. Folders
// are gone through to the bottom for what ends so; what is hidden and links to folders are left out. A
// pattern ("*", "?", "[a-z]", "**" for any folders) counts as one only where there is no file of that name.
// `lists` are files of paths, one a line, "-" for standard input. Throws FileError for a list that cannot be
// read; all other trouble is an input with a finding.
Gathered gather(Files& files, const std::vector<std::string>& paths, const std::vector<std::string>& lists,
                const Sought& sought = {});

// How an input is called in what is said of it.
std::string shown_name(const std::string& path);

// The text of an input.
std::string read_input(Files& files, const std::string& path, std::uint64_t limit);

// A folder that holds nothing for this command.
Finding nothing_there(const std::string& folder, const Sought& sought = {});

}  // namespace halfsplit::cli
