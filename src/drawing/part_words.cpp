#include "drawing/part_words.hpp"

#include "halfsplit/base/text.hpp"

#include <algorithm>
#include <vector>

namespace halfsplit::drawing {

using harness::Harness;
using harness::Index;
using harness::none;

std::string cavities_of(const Harness& harness, Index network, Index part) {
    std::vector<std::string> pairs;
    for (const harness::Point& point : harness.points) {
        if (point.network != network || point.part != part) continue;
        std::vector<std::string> cavities;
        for (const Index terminal : point.terminal)
            if (terminal != none) cavities.push_back(harness.terminals[terminal].cavity);
        const std::string pair = join(cavities, "/");
        if (pair != "H/L" && std::find(pairs.begin(), pairs.end(), pair) == pairs.end())
            pairs.push_back(pair);
    }
    return join(pairs, " ");
}

std::string colours_of(const harness::Part& run) {
    std::vector<std::string> codes;
    for (const auto& strand : run.strand)
        if (strand)
            codes.push_back(strand->colour.base.empty() ? "?" : strand->colour.base + strand->colour.stripe);
    return join(codes, "/");
}

}  // namespace halfsplit::drawing
