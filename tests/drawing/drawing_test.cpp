// Pictures: every label has room of its own, everything stands inside, colours can be read, names are text.
#include "halfsplit/drawing/drawing.hpp"

#include "halfsplit/base/files.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/harness/read.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"
#include "support/random_harness.hpp"
#include "support/star_bus.hpp"

#include <algorithm>
#include <cmath>
#include <regex>
#include <set>
#include <sstream>

using namespace halfsplit;
using drawing::Drawing;
using drawing::LabelBox;
using drawing::Marks;

namespace {

bool overlap(const LabelBox& a, const LabelBox& b) {
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

bool within(const LabelBox& inner, const LabelBox& outer) {
    return inner.x >= outer.x && inner.y >= outer.y && inner.x + inner.width <= outer.x + outer.width &&
           inner.y + inner.height <= outer.y + outer.height;
}

double figure_of(const std::string& svg, const std::string& pattern) {
    std::smatch match;
    REQUIRE(std::regex_search(svg, match, std::regex(pattern)));
    return std::stod(match[1]);
}

// Every part marked in some way, so that no label is missing.
Marks all_marked(const harness::Harness& harness) {
    Marks marks;
    for (std::size_t i = 0; i < harness.parts.size(); ++i) {
        const std::string& id = harness.parts[i].id;
        if (i % 4 == 0) marks.suspects[id] = 0.125;
        if (i % 4 == 1) marks.cleared.insert(id);
        if (i % 4 == 2) marks.found.insert(id);
        if (i % 4 == 3) marks.unplugged.insert(id);
    }
    return marks;
}

void require_room(const harness::Harness& harness, harness::Index network) {
    const Drawing picture(harness, network);
    for (const Marks& marks : {Marks{}, all_marked(harness)}) {
        const std::vector<LabelBox> labels = picture.labels(marks);
        REQUIRE_FALSE(labels.empty());
        const std::string svg = picture.svg(marks);
        const double width = figure_of(svg, "viewBox=\"0 0 ([0-9.]+) ");
        const double height = figure_of(svg, "viewBox=\"0 0 [0-9.]+ ([0-9.]+)");
        const LabelBox whole{0, 0, width, height, ""};
        for (std::size_t i = 0; i < labels.size(); ++i) {
            if (!within(labels[i], whole)) FAIL(labels[i].text << " is outside");
            for (std::size_t j = i + 1; j < labels.size(); ++j)
                if (overlap(labels[i], labels[j])) FAIL(labels[i].text << " lies over " << labels[j].text);
        }
    }
}

// Relative luminance and contrast ratio of WCAG 2.1.
double channel(const std::string& colour, std::size_t at) {
    const double share = std::stoi(colour.substr(at, 2), nullptr, 16) / 255.0;
    return share <= 0.03928 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
}
double luminance(const std::string& colour) {
    return 0.2126 * channel(colour, 1) + 0.7152 * channel(colour, 3) + 0.0722 * channel(colour, 5);
}
double contrast(const std::string& a, const std::string& b) {
    const auto [low, high] = std::minmax({luminance(a), luminance(b)});
    return (high + 0.05) / (low + 0.05);
}

}  // namespace

TEST_CASE("no label of a picture lies over another one or outside, on the demo's buses") {
    for (const char* path : {"data/demo/minibus.json", "data/demo/forestry.json"}) {
        const auto read = harness::read_harness_file(system_files(), test::path_of(path));
        REQUIRE(read.harness);
        for (harness::Index network = 0; network < read.harness->networks.size(); ++network) {
            INFO(path << " " << network);
            require_room(*read.harness, network);
        }
    }
}

TEST_CASE(
    "no label of a picture lies over another one or outside, on random buses with stubs, rings and stars") {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        INFO("seed " << seed);
        require_room(test::harness_from_text(test::random_harness_json(seed, {.most_points = 60})), 0);
    }
}

TEST_CASE("the arms of a star stand side by side, in the order of the file") {
    struct Expected {
        std::size_t arms, modules, rows;
    };
    // Seven cells to a row; one row for the hub, and the socket is an arm as well.
    for (const Expected& star :
         {Expected{5, 1, 2}, Expected{20, 1, 4}, Expected{40, 1, 7}, Expected{40, 3, 21}}) {
        INFO(star.arms << " arms of " << star.modules);
        const auto harness = test::harness_from_text(test::star_bus_json(star.arms, star.modules));
        require_room(harness, 0);
        std::vector<double> tops, lefts;
        for (const LabelBox& label : Drawing(harness, 0).labels({})) {
            if (label.text != "M" + std::to_string(lefts.size() + 1)) continue;
            lefts.push_back(label.x);
            if (tops.empty() || label.y > tops.back()) tops.push_back(label.y);
            CHECK(label.y == tops.back());  // never back up
        }
        CHECK(lefts.size() == star.arms * star.modules);
        CHECK(tops.size() + 1 == star.rows);
        const std::string svg = Drawing(harness, 0).svg({});
        CHECK(figure_of(svg, "viewBox=\"0 0 ([0-9.]+) ") <= 1200);
        CHECK(figure_of(svg, "viewBox=\"0 0 [0-9.]+ ([0-9.]+)") <
              210.0 * static_cast<double>(star.rows) + 80);
    }
}

TEST_CASE("every name is on the picture in full, however long") {
    const auto squeezed = [](std::string text) {
        text.erase(std::remove(text.begin(), text.end(), ' '), text.end());
        return text;
    };
    const std::string long_words =
        "behind the trim of the rear left wheel house, above the fuel filler neck and the vent line beside "
        "Donaudampfschifffahrtsgesellschaftskapitaen, the third from the front";
    for (const std::string& words : {std::string("seat base"), long_words.substr(0, 60), long_words}) {
        const auto harness = test::harness_from_text(test::star_bus_json(9, 2, words));
        require_room(harness, 0);
        std::string all;
        for (const LabelBox& label : Drawing(harness, 0).labels({})) all += squeezed(label.text);
        for (const auto& place : harness.places) CHECK(all.find(squeezed(place.name)) != std::string::npos);
        for (const auto& cover : harness.covers) CHECK(all.find(squeezed(cover.name)) != std::string::npos);
        for (const auto& part : harness.parts) CHECK(all.find(squeezed(part.name)) != std::string::npos);
        CHECK((all.find("Infull:[1]") != std::string::npos) == (words.size() > 50));
    }
}

TEST_CASE("long ids and cavities stand in full in the picture and its faces") {
    std::string text = test::read_file("tests/data/small_chain.json");
    const std::string id = "CONNECTOR-OF-THE-FLOOR-LOOM-NUMBER-1", cavity = "B12-LOW";
    text = std::regex_replace(text, std::regex("X1"), id);
    text = std::regex_replace(text, std::regex("\"5\", \"6\", \"7\""), "\"5\", \"" + cavity + "\", \"7\"");
    const auto harness = test::harness_from_text(text);
    require_room(harness, 0);
    std::set<std::string> labels;
    for (const LabelBox& label : Drawing(harness, 0).labels({})) labels.insert(label.text);
    CHECK(labels.count("[1] " + id) + labels.count("[2] " + id) == 1);
    CHECK(labels.count(cavity) == 1);
}

TEST_CASE("boxes that lie over one another, or outside, are told from those that do not") {
    CHECK(overlap({0, 0, 10, 10, ""}, {9, 9, 5, 5, ""}));
    CHECK_FALSE(overlap({0, 0, 10, 10, ""}, {10, 0, 5, 5, ""}));
    CHECK(within({1, 1, 3, 3, ""}, {0, 0, 5, 5, ""}));
    CHECK_FALSE(within({1, 1, 5, 3, ""}, {0, 0, 5, 5, ""}));
}

TEST_CASE("every part of the network is drawn once, and named") {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        INFO("seed " << seed);
        const harness::Harness harness =
            test::harness_from_text(test::random_harness_json(seed, {.most_points = 40}));
        const std::vector<LabelBox> labels = Drawing(harness, 0).labels({});
        for (const harness::Point& point : harness.points) {
            if (point.network != 0) continue;
            const harness::Part& part = harness.parts[point.part];
            if (part.fitted != harness::Fitted::Yes) continue;
            INFO(part.id);
            // Its own words, and at most its face's beside them.
            const auto named = std::count_if(labels.begin(), labels.end(),
                                             [&](const LabelBox& label) { return label.text == part.id; });
            CHECK(named >= 1);
        }
    }
}

TEST_CASE("what is written can be read against what is behind it") {
    // WCAG 2.1, success criterion 1.4.3: at least 4.5 to 1. Black on white is 21 to 1.
    CHECK(contrast("#000000", "#ffffff") == Approx(21));
    for (const auto& [front, behind] : drawing::text_colours()) {
        INFO(front << " on " << behind);
        CHECK(contrast(front, behind) >= 4.5);
    }
}

TEST_CASE("names with markup in them are shown as text") {
    std::string text = test::read_file("tests/data/small_chain.json");
    const std::string name = "\"dash to floor\"";
    REQUIRE(text.find(name) != std::string::npos);
    text.replace(text.find(name), name.size(), R"("</text><script>alert(1)</script>&\u001b[31m")");
    const harness::Harness harness = test::harness_from_text(text);
    const Drawing picture(harness, 0);
    const std::string svg = picture.svg({}) + picture.symbol("a\"b") + picture.step("a\"b", {});
    CHECK(svg.find("<script") == std::string::npos);
    CHECK(svg.find('\x1b') == std::string::npos);
    CHECK(svg.find("id=\"a&quot;b\"") != std::string::npos);
    CHECK(picture.text({}, 80).find('\x1b') == std::string::npos);
}

TEST_CASE("a state is told in words: good, suspect with its chance, found, unplugged, clip and probe") {
    const harness::Harness& harness = test::small_chain();
    Marks marks;
    marks.suspects["X1"] = 0.5;
    marks.cleared.insert("S1");
    marks.found.insert("X2");
    marks.unplugged.insert("M1");
    marks.clip = "DS:6/14";
    marks.probe = "X1.b:4";
    const Drawing picture(harness, 0);
    const std::string svg = picture.svg(marks);
    for (const char* words : {"? 50 %", "= good", "FOUND", "unplugged", "clip DS:6/14", "probe X1.b:4"}) {
        INFO(words);
        CHECK(svg.find(words) != std::string::npos);
    }
    const std::string text = picture.text(marks, 80);
    for (const char* words : {"? 50 %", "FOUND", "[unplugged]", "[clip DS:6/14]", "[probe X1.b:4]"}) {
        INFO(words);
        CHECK(text.find(words) != std::string::npos);
    }
    CHECK(picture.step("bus", marks).find("? 50 %") == std::string::npos);  // in small: sign, name and chance
    CHECK(picture.step("bus", marks).find("X1 50 %") != std::string::npos);
    CHECK(picture.step("bus", marks).size() < 2500);
}

TEST_CASE("the map fits forty columns and names each part once") {
    const auto read = harness::read_harness_file(system_files(), test::path_of("data/demo/minibus.json"));
    REQUIRE(read.harness);
    std::istringstream lines(Drawing(*read.harness, 0).text(all_marked(*read.harness), 40));
    std::size_t longest = 0;
    for (std::string line; std::getline(lines, line);) longest = std::max(longest, display_width(line));
    CHECK(longest <= 40);
}

TEST_CASE("the same bus gives the same picture, to the byte") {
    const harness::Harness& harness = test::small_chain();
    CHECK(Drawing(harness, 0).svg({}) == Drawing(harness, 0).svg({}));
}

TEST_CASE("a face rings the cavity that a tip names, and both of a point") {
    const auto read = harness::read_harness_file(system_files(), test::path_of("data/demo/minibus.json"));
    REQUIRE(read.harness);
    const auto rings = [&](const std::string& probe) {
        Marks marks;
        marks.probe = probe;
        const std::string svg = Drawing(*read.harness, 0).svg(marks);
        std::size_t count = 0;
        for (std::size_t at = svg.find("rx=\"9.4\""); at != std::string::npos;
             at = svg.find("rx=\"9.4\"", at + 1))
            ++count;
        return count;
    };
    CHECK(rings("") == 0);
    CHECK(rings("X1.a:4") == 1);
    CHECK(rings("X1.a:4/5") == 2);
}
