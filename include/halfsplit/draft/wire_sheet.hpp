// The wire sheet: a bus as it is copied off a drawing, one line for each hop (docs/reference/wire-sheet.md),
// and the way there and back.
#pragma once

#include "halfsplit/base/files.hpp"
#include "halfsplit/draft/drafted.hpp"
#include "halfsplit/harness/read.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::draft {

// Larger sheets are refused by the program.
inline constexpr std::uint64_t largest_sheet = 4ULL << 20U;

struct DraftRules {
    bool whole = false;  // places and covers of libraries written out, in place of an include
    harness::IncludeRules include = {};
};

// A harness file from a sheet, to lie in the folder of `file_name`, where `files` is asked for the libraries
// that the sheet names. Findings of the sheet's words come first; where there are none, those of the harness
// that it makes, placed in the sheet. Never throws on bad input.
Drafted draft_sheet(std::string_view text, const std::string& file_name, Files& files,
                    const DraftRules& rules = {});

struct WrittenSheet {
    std::string text;                   // empty where the harness file is not sound
    std::vector<Finding> findings;      // of the harness file
    std::vector<std::string> left_out;  // what the harness says and the sheet does not, a line each
};

// The sheet of a harness file. What it leaves out is found by drafting it again and comparing.
WrittenSheet write_sheet(std::string_view harness, const std::string& file_name, Files& files,
                         const harness::IncludeRules& rules = {});

}  // namespace halfsplit::draft
