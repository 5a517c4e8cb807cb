// A harness file from wire data: a harness list or a wire list.
#pragma once

#include "cli/put_draft.hpp"

#include <string>
#include <string_view>

namespace halfsplit::cli {

struct WireOptions {
    std::string network;  // what to follow; empty: list what there is
    std::string columns;  // of a wire list
};

// Whether the text is XML or a wire list with a header that is understood.
bool is_wire_data(std::string_view text);

// Writes nothing where the source or the choice has an error.
int draft_wires(const std::string& text, const std::string& path, const WireOptions& options,
                const DraftOutput& output, Context& context);

}  // namespace halfsplit::cli
