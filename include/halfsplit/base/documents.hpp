// Texts of docs/ and tests/data/ that the program itself shows, compiled in.
#pragma once

#include <string_view>

namespace halfsplit {

// docs/reference/findings.md for "findings"; tests/data/findings/ID.txt, a finding as it is shown, for its
// id; empty for any other name.
std::string_view document_text(std::string_view name);

}  // namespace halfsplit
