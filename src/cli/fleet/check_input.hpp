// What `check` does with one input.
#pragma once

#include "halfsplit/base/files.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/report/check_report.hpp"

#include "cli/fleet/gather.hpp"
#include "cli/fleet/severities.hpp"

#include <string>
#include <vector>

namespace halfsplit::cli {

struct Checking {
    bool notes = false;  // also what is no mistake
    bool fixes = false;  // also the text as it would be with every safe mend
    Severities severities;
    harness::IncludeRules include = {};
};

struct CheckedInput {
    report::CheckedFile file;
    // Where fixes are wanted and there are some after which the file checks cleaner: the text, and what to
    // change in it.
    std::string text;
    std::vector<Edit> edits;
};

// Never throws on bad input. Safe to call from several threads at once when `files` is.
CheckedInput check_input(Files& files, const Input& input, const Checking& checking);

}  // namespace halfsplit::cli
