// The card on a screen and on a sheet.
#include "halfsplit/report/card_report.hpp"

#include "halfsplit/base/text.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"

#include <algorithm>
#include <sstream>

using namespace halfsplit;
using report::Paper;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::istringstream in(text);
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

std::size_t count(const std::string& text, const std::string& piece) {
    std::size_t found = 0;
    for (std::size_t at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1)) ++found;
    return found;
}

const advice::Card& chain_card() {
    static const advice::Card card = advice::card(test::small_chain(), 0);
    return card;
}

// What a printed line holds: the text between its tags, with what was escaped.
std::vector<std::string> printed_lines(const std::string& html) {
    std::vector<std::string> result;
    for (std::string line : lines_of(html)) {
        if (line.rfind("<p>", 0) != 0) continue;
        for (const char* tag : {"<p>", "</p>", "<b>", "</b>"}) {
            for (std::size_t at = line.find(tag); at != std::string::npos; at = line.find(tag))
                line.erase(at, std::string(tag).size());
        }
        result.push_back(line);
    }
    return result;
}

}  // namespace

TEST_CASE("no line of a card is wider than the screen, and every step stands on it") {
    const advice::Card card = report::fitted(chain_card(), "small.json", Paper::A4);
    for (const std::size_t columns : {30U, 40U, 80U, 132U}) {
        const std::string text = report::card_text(card, "small.json", columns);
        for (const std::string& line : lines_of(text)) {
            INFO(line);
            CHECK(display_width(line) <= columns);
        }
        for (const advice::CardStep& step : card.steps)
            CHECK(text.find("\n" + std::string(step.number < 10 ? " " : "") + std::to_string(step.number) +
                            " ") != std::string::npos);
    }
}

TEST_CASE("a card is folded until it fits one sheet of either paper, and fills it", "[long]") {
    for (const char* path : {"data/demo/forestry.json", "data/demo/minibus.json"}) {
        const harness::Harness harness = test::harness_from(path);
        const advice::Card whole = advice::card(harness, harness.networks.size() - 1);
        for (const Paper paper : {Paper::A4, Paper::Letter}) {
            const advice::Card card = report::fitted(whole, "h.json", paper);
            const std::size_t lines = report::sheet_lines(card, "h.json", paper);
            REQUIRE(report::sheet_lines(whole, "h.json", paper) > report::size_of(paper).lines);
            CHECK(lines <= report::size_of(paper).lines);
            CHECK(lines + 8 > report::size_of(paper).lines);
            CHECK(card.share < whole.share);
            CHECK(card.share > 0.2);
        }
    }
}

TEST_CASE("with fewer lines the share of hunts that end on a card shrinks, down to no step at all") {
    advice::Card card = chain_card();
    const advice::Card a4 = report::fitted(card, "small.json", Paper::A4);
    const advice::Card letter = report::fitted(card, "small.json", Paper::Letter);
    CHECK(letter.share < a4.share);
    card.title = std::string(12'000, 'x');
    const advice::Card none = report::fitted(card, "small.json", Paper::A4);
    CHECK(none.steps.empty());
    CHECK(report::card_text(none, "small.json", 80).find("no step fits the sheet") != std::string::npos);
}

TEST_CASE("the printed page has the lines that were counted, each within its room, and no more") {
    for (const Paper paper : {Paper::A4, Paper::Letter}) {
        const report::SheetSize size = report::size_of(paper);
        const advice::Card card = report::fitted(chain_card(), "small.json", paper);
        const std::string html = report::card_html(card, "small.json", paper);
        const auto columns = html.find("<div class=\"steps\">"), foot = html.find("</div>\n<p>");
        REQUIRE(columns < foot);
        const std::size_t around =
            printed_lines(html.substr(0, columns)).size() + printed_lines(html.substr(foot)).size();
        const std::size_t middle = html.find("</div>\n<div style");
        const std::string left = html.substr(columns, middle - columns);
        const std::string right = html.substr(middle, foot - middle);
        const std::size_t longer = std::max(printed_lines(left).size(), printed_lines(right).size());
        CHECK(around + longer + 2 <= size.lines);
        for (const std::string& line : printed_lines(left + right)) {
            INFO(line);
            CHECK(display_width(line) - 5 * count(line, "&quot;") <= size.column_width);
        }
        CHECK(count(html, "<section") == card.steps.size());
        CHECK(html.find(paper == Paper::A4 ? "size: A4 portrait" : "size: letter portrait") !=
              std::string::npos);
    }
}

// Widths of the faces named in the page's style, in thousandths of the size: DejaVu Sans Mono 602, Liberation
// Mono and Courier New 600 (read from the fonts' own tables, advance of a figure over units of the em).
TEST_CASE("the characters and lines of a sheet fit within the margins of its paper") {
    constexpr double points = 72 / 25.4, size = 7.4, advance = 0.602, line = 8.4, margin = 8;
    const auto fits = [&](Paper paper, double wide, double high) {
        const report::SheetSize sheet = report::size_of(paper);
        CHECK(static_cast<double>(sheet.width) * size * advance <= (wide - 2 * margin) * points);
        CHECK(static_cast<double>(2 * sheet.column_width) * size * advance <= (wide - 2 * margin) * points);
        CHECK(2 * sheet.column_width < sheet.width);
        CHECK(static_cast<double>(sheet.lines) * line <= (high - 2 * margin) * points);
    };
    fits(Paper::A4, 210, 297);          // ISO 216
    fits(Paper::Letter, 215.9, 279.4);  // ANSI/ASME Y14.1, size A
    const std::string html = report::card_html(chain_card(), "x", Paper::A4);
    CHECK(html.find("margin: 8mm") != std::string::npos);
    CHECK(html.find("7.4pt/8.4pt") != std::string::npos);
}

TEST_CASE("a page holds nothing that runs or is fetched, and names are text on it, whatever is in them") {
    advice::Card card = report::fitted(chain_card(), "small.json", Paper::A4);
    card.title = "<script>alert('1')</script> & \"bus\"";
    card.steps.front().travel_to = "<img src=x onerror=y>\x1b[31m\xff";
    const std::string html = report::card_html(card, "<b>.json", Paper::A4);
    for (const char* piece :
         {"<script", "<img", "<b>.json", "http:", "https:", "src=\"", "url(", "@import", "\x1b"})
        CHECK(html.find(piece) == std::string::npos);
    CHECK(html.find("&lt;script&gt;alert(&#39;1&#39;)&lt;/script&gt; &amp; &quot;bus&quot;") !=
          std::string::npos);
    CHECK(valid_utf8(html));
    const std::string text = report::card_text(card, "a\x1b[2J.job", 80);
    CHECK(text.find('\x1b') == std::string::npos);
    CHECK(valid_utf8(text));
}

TEST_CASE("where there is room, readings can be written on the sheet") {
    advice::Card card = chain_card();
    card = folded(card, std::vector<char>(card.steps.size(), 0));
    CHECK(count(report::card_html(card, "x", Paper::A4), "shown ____") == 0);
    const std::size_t few = 6;
    std::vector<char> kept(chain_card().steps.size(), 0);
    std::fill_n(kept.begin(), few, 1);
    const advice::Card small = folded(chain_card(), kept);
    REQUIRE(!small.steps.empty());
    CHECK(count(report::card_html(small, "x", Paper::A4), "shown ____") > 10);
}

TEST_CASE("the covers and plugs of all steps are there to tick off, with those of the beginning first") {
    advice::Card card = report::fitted(chain_card(), "small.json", Paper::A4);
    card.covers_off = {{"first", "first cover"}};
    card.apart = {{"T1", "terminator"}};
    const std::string text = report::card_text(card, "small.json", 200);
    CHECK(text.find("[_]first cover  [_]kick panel") != std::string::npos);
    CHECK(text.find("[_]T1 (terminator)") != std::string::npos);
    for (const advice::CardItem& cover : to_refit(card))
        CHECK(text.find("[_]" + cover.name) != std::string::npos);
}

TEST_CASE("a job that is not hunting has no steps on its card, and says where it stands") {
    using Stage = advice::Left::Stage;
    advice::Card card = chain_card();
    card.steps.clear();
    const auto text_at = [&](Stage stage) {
        card.stage = stage;
        card.found = "X1";
        return report::card_text(card, "a.job", 200);
    };
    CHECK(text_at(Stage::Found).find("X1 was seen to be faulty: mend it, then PROOF") != std::string::npos);
    CHECK(text_at(Stage::Mended).find("a repair waits for its PROOF") != std::string::npos);
    CHECK(text_at(Stage::Cured).find("refit and close") != std::string::npos);
    CHECK(text_at(Stage::NothingFound).find("supply and ground") != std::string::npos);
    CHECK(text_at(Stage::Found).find("expected") == std::string::npos);
}
