// A harness file from a wire sheet, by question where there is none yet; and the sheet of a harness file.
#pragma once

#include "cli/commands.hpp"

#include <cstddef>
#include <string>

namespace halfsplit::cli {

struct SheetOptions {
    std::string from, output;
    std::size_t width = 0;
    bool json = false, whole = false, ask = false;
    bool quiet = false;  // nothing but what is to be told
    std::size_t notes_width = 80;
};

int draft_sheet_file(const std::string& text, const std::string& path, const SheetOptions& options,
                     Context& context);
int draft_from(const std::string& text, const SheetOptions& options, Context& context);
// `path`: the sheet; empty: it is asked for.
int draft_by_question(const std::string& path, const SheetOptions& options, Context& context);

}  // namespace halfsplit::cli
