// Wires from a wire list as a spreadsheet saves it (docs/reference/wire-data.md).
#pragma once

#include "halfsplit/draft/loom.hpp"

#include <string>
#include <string_view>

namespace halfsplit::draft {

// Most rows accepted.
inline constexpr std::size_t most_rows = 200'000;

// Never throws on bad input. `columns` says which column is which and what ids mean, where the header does
// not: "from=Pin A,to=Pin B,splices=S" (docs/reference/wire-data.md); empty: the header's own words.
// Findings: csv-encoding, csv-quote, csv-empty, csv-too-long, csv-header, csv-option, csv-cell (warning).
LoomRead read_csv(std::string_view text, const std::string& file_name, std::string_view columns);

// Whether the text is a wire list: among its first rows one is a header with columns for both ends.
bool looks_like_wire_list(std::string_view text);

}  // namespace halfsplit::draft
