#include "halfsplit/report/card_report.hpp"

#include <fmt/format.h>

#include "report/card_sheet.hpp"
#include "report/html.hpp"

#include <string_view>

namespace halfsplit::report {

namespace {

// One line of the sheet each; a step is kept apart from the next by a rule that takes no room.
constexpr std::string_view card_style = R"(
html { background: #fff; color: #000; }
body { margin: 0; font: 7.4pt/8.4pt "DejaVu Sans Mono", "Liberation Mono", "Courier New", monospace; }
main { overflow: hidden; }
p { margin: 0; height: 8.4pt; overflow: hidden; white-space: pre; }
.steps { display: flex; justify-content: space-between; margin: 8.4pt 0; }
.step { position: relative; break-inside: avoid; }
.step::before { content: ""; position: absolute; left: 0; right: 0; top: -0.5pt; border-top: 0.6pt solid #000; }
@media screen { body { margin: 8mm; } main { border: 1px solid #000; padding: 4mm; } }
)";

void write_lines(const CardLines& lines, std::string& html) {
    for (const CardLine& line : lines) {
        const std::string_view text = line.text;
        const std::size_t lead = line.strong ? text.size() : line.strong_bytes;
        if (lead > 0)
            html += fmt::format("<p><b>{}</b>{}</p>\n", escaped(text.substr(0, lead)),
                                escaped(text.substr(lead)));
        else
            html += fmt::format("<p>{}</p>\n", escaped(text));
    }
}

void write_steps(const CardSheet& sheet, const SheetSize& size, std::size_t blank, std::string& html) {
    html += "<div class=\"steps\">\n";
    for (std::size_t column = 0; column < sheet.columns.size(); ++column) {
        html += fmt::format("<div style=\"width: {}ch\">\n", size.column_width);
        std::size_t used = 0;
        for (const CardLines& step : sheet.columns[column]) {
            html += "<section class=\"step\">\n";
            write_lines(step, html);
            html += "</section>\n";
            used += step.size();
        }
        // Each takes two lines: there has to be room for a hand.
        for (; used + 2 <= sheet.column_lines + blank; used += 2)
            write_lines({{}, {blank_reading(size.column_width)}}, html);
        html += "</div>\n";
    }
    html += "</div>\n";
}

}  // namespace

std::string card_html(const advice::Card& card, const std::string& subject, Paper paper) {
    const SheetSize size = size_of(paper);
    const CardSheet sheet = laid_out(card, subject, paper);
    const std::size_t blank = size.lines - std::min(size.lines, sheet.lines());
    std::string page_style =
        fmt::format("@page {{ size: {} portrait; margin: 8mm; }}", paper == Paper::A4 ? "A4" : "letter");
    page_style += card_style;
    page_style += fmt::format("@media print {{ main {{ height: {:.1f}pt; }} }}\n",
                              8.4 * static_cast<double>(size.lines));
    std::string html = "<main>\n";
    write_lines(sheet.head, html);
    if (!card.steps.empty()) write_steps(sheet, size, blank, html);
    write_lines(sheet.foot, html);
    return html_document(sheet.head.front().text, page_style, html + "</main>\n");
}

}  // namespace halfsplit::report
