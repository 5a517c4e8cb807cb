// Safe mends of a harness file, tried before they are offered.
#pragma once

#include "halfsplit/base/finding.hpp"
#include "halfsplit/base/text_edit.hpp"

#include <functional>
#include <string>
#include <vector>

namespace halfsplit::cli {

struct ReadAgain {
    std::string name;  // of the file
    std::function<std::vector<Finding>(const std::string& text)> findings;
};

// The changes that the mends of `findings`, which are those of `text`, make to it, in order. Only such after
// which the text, read anew, has fewer findings, no finding that it did not have, and no more errors. Empty
// where there are none.
std::vector<Edit> safe_edits(const std::vector<Finding>& findings, const std::string& text,
                             const ReadAgain& again);

}  // namespace halfsplit::cli
