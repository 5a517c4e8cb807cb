// The colours of IEC 60757 as they are painted. The shades are ours: the standard names colours, not shades.
#pragma once

#include <array>
#include <string>
#include <string_view>

namespace halfsplit::drawing {

struct Paint {
    std::string_view code, word, shade;
};

inline constexpr std::array<Paint, 16> paints{{{"BK", "black", "#222222"},
                                               {"BN", "brown", "#7b4a21"},
                                               {"RD", "red", "#d0202a"},
                                               {"OG", "orange", "#f08119"},
                                               {"YE", "yellow", "#f7d917"},
                                               {"GN", "green", "#1f9348"},
                                               {"BU", "blue", "#2456b8"},
                                               {"VT", "violet", "#7a3fa6"},
                                               {"GY", "grey", "#8e9297"},
                                               {"WH", "white", "#fdfdfd"},
                                               {"PK", "pink", "#f39ab8"},
                                               {"GD", "gold", "#c9a227"},
                                               {"TQ", "turquoise", "#30c0c0"},
                                               {"SR", "silver", "#c3c7cb"},
                                               {"GNYE", "green and yellow", "#9bc83a"},
                                               {"", "not stated", "#b9bec6"}}};

inline const Paint& paint_of(const std::string& code) {
    for (const Paint& paint : paints)
        if (paint.code == code) return paint;
    return paints.back();
}

}  // namespace halfsplit::drawing
