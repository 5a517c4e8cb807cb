// Manual pages, in the macros of man(7).
#pragma once

#include "cli/guide/model.hpp"

#include <string>

namespace halfsplit::cli {

// halfsplit(1).
std::string man_page(const GuideProgram& program);
// halfsplit-COMMAND(1).
std::string man_page(const GuideProgram& program, const GuideCommand& command);

}  // namespace halfsplit::cli
