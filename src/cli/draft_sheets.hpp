// A harness file from a wire sheet, by question where there is none yet; and the sheet of a harness file.
#pragma once

#include "cli/put_draft.hpp"

#include <string>

namespace halfsplit::cli {

// `whole`: places and covers of libraries are written out.
int draft_sheet_file(const std::string& text, const std::string& path, bool whole, const DraftOutput& output,
                     Context& context);
int draft_from(const std::string& text, const std::string& path, const DraftOutput& output, Context& context);
// `path`: the sheet; empty: it is asked for.
int draft_by_question(const std::string& path, bool whole, const DraftOutput& output, Context& context);

}  // namespace halfsplit::cli
