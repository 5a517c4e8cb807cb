// Safe mends of a harness file, tried before they are offered.
#pragma once

#include "halfsplit/base/finding.hpp"
#include "halfsplit/base/text_edit.hpp"

#include <string>
#include <vector>

namespace halfsplit::cli {

// The changes that the mends of `findings`, which are those of `text`, make to it, in order. Only such after
// which the text, read anew, has fewer findings, no finding that it did not have, and no more errors. Empty
// where there are none.
std::vector<Edit> safe_edits(const std::vector<Finding>& findings, const std::string& text,
                             const std::string& name);

}  // namespace halfsplit::cli
