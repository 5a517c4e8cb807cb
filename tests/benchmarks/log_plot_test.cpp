#include "benchmarks/log_plot.hpp"

#include "support/catch.hpp"

#include <regex>
#include <stdexcept>

namespace halfsplit::test {

namespace {

Plot tenfold() {
    const Series discs{"mean", Marker::Disc, true, {{10, 1}, {20, 10}, {40, 100}}};
    const Series crosses{"aim", Marker::Cross, false, {{20, 5}}};
    return {"Time", "points", {{"ms", {discs, crosses}}}};
}

std::vector<std::string> all_of(const std::string& text, const std::string& pattern) {
    const std::regex wanted(pattern);
    std::vector<std::string> found;
    for (std::sregex_iterator it(text.begin(), text.end(), wanted), end; it != end; ++it)
        found.push_back((*it)[1]);
    return found;
}

}  // namespace

TEST_CASE("A plot over logarithmic scales puts equal ratios equally far apart") {
    const std::string picture = svg(tenfold());
    // The first is in the key.
    const auto x = all_of(picture, "<circle cx=\"([0-9.]+)\""), y = all_of(picture, "cy=\"([0-9.]+)\"");
    REQUIRE(x.size() == 4);
    const auto gap = [](const std::vector<std::string>& at, std::size_t i) {
        return std::stod(at[i + 1]) - std::stod(at[i]);
    };
    CHECK(gap(x, 1) > 100);
    CHECK(gap(x, 1) == Approx(gap(x, 2)).margin(0.11));
    CHECK(gap(y, 1) < -50);  // up
    CHECK(gap(y, 1) == Approx(gap(y, 2)).margin(0.11));
}

TEST_CASE("A plot labels its sizes and powers of ten and names each series once") {
    const std::string picture = svg(tenfold());
    const auto words = all_of(picture, "<text[^>]*>([^<]*)</text>");
    CHECK(words == std::vector<std::string>{"Time", "mean", "aim", "ms", "1", "10", "100", "10", "20", "40",
                                            "points"});
    Plot twice = tenfold();
    twice.panels.push_back(twice.panels.front());
    CHECK(all_of(svg(twice), ">(mean)<").size() == 1);
}

TEST_CASE("A plot of nothing, or of what has no logarithm, is refused") {
    CHECK_THROWS_AS(svg({}), std::invalid_argument);
    Plot zero = tenfold();
    zero.panels[0].series[0].dots[0].figure = 0;
    CHECK_THROWS_AS(svg(zero), std::invalid_argument);
}

}  // namespace halfsplit::test
