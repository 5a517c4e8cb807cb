// Which of two chances is the greater, so that the last bits do not decide: compilers and processors differ
// in them, and what one of them lists first the other should list first as well.
#pragma once

#include <cmath>

namespace halfsplit {

// Apart by a billionth. A strict weak order: chances are compared as rounded.
inline bool likelier(double one, double other) {
    constexpr double steps = 1e9;
    return std::round(one * steps) > std::round(other * steps);
}

}  // namespace halfsplit
