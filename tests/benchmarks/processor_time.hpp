// Time of the processor, so that other work on the machine counts little.
#pragma once

#include <algorithm>
#include <ctime>

namespace halfsplit::test {

// The least of three where it is short.
template <typename Work>
double milliseconds(Work work) {
    double least = 0;
    for (int run = 0; run < 3 && (run == 0 || least < 50); ++run) {
        const std::clock_t start = std::clock();
        work();
        const double took = 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
        least = run == 0 ? took : std::min(least, took);
    }
    return least;
}

}  // namespace halfsplit::test
