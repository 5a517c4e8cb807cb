// Where what was drafted goes, and what is told about it: the same for sheets and for wire data.
#pragma once

#include "halfsplit/draft/drafted.hpp"

#include "cli/commands.hpp"

#include <cstddef>
#include <string>

namespace halfsplit::cli {

struct DraftOutput {
    std::string file;    // to write; empty: the screen
    bool json = false;   // what is told goes to the screen as data, and what was drafted into the file only
    bool quiet = false;  // without a file: nothing is written at all
    std::size_t columns = 80;
};

// Refuses to write over the source.
void refuse_over(const std::string& source, const DraftOutput& output, Context& context);

// `text`: what was drafted of `source`; empty: nothing. Writes it, and tells what `drafted` says beyond it.
// Exit code: unusable with errors, findings with any, else fine.
int put_draft(const std::string& text, const draft::Drafted& drafted, const std::string& source,
              const DraftOutput& output, Context& context);

}  // namespace halfsplit::cli
