// What a shell offers while a command line is typed: commands, options, words out of a fixed set, files by
// ending. Each is a script of its own for one shell and needs nothing but that shell.
#pragma once

#include "cli/guide/model.hpp"

#include <string>

namespace halfsplit::cli {

std::string bash_completion(const GuideProgram& program);
std::string zsh_completion(const GuideProgram& program);
std::string fish_completion(const GuideProgram& program);

// In single quotes, for any of the three.
std::string shell_quoted(const std::string& text);

}  // namespace halfsplit::cli
