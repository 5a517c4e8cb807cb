// Pieces of JSON output.
#pragma once

#include <nlohmann/json.hpp>

#include <cmath>

namespace halfsplit {

// Four decimals: a tenth of a second and a hundredth of a percent are enough, and the text stays the same
// everywhere.
inline double rounded(double value) {
    return std::round(value * 1e4) / 1e4;
}

// Infinity is OL.
inline nlohmann::json ohm_to_json(double ohm) {
    return std::isfinite(ohm) ? nlohmann::json(rounded(ohm)) : nlohmann::json("OL");
}

// An array of what `each` makes of the items.
template <typename Items, typename Each>
nlohmann::json listed(const Items& items, Each each) {
    nlohmann::json out = nlohmann::json::array();
    for (const auto& item : items) out.push_back(each(item));
    return out;
}

}  // namespace halfsplit
