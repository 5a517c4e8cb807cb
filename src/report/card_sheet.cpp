#include "report/card_sheet.hpp"

#include <algorithm>
#include <numeric>

namespace halfsplit::report {

namespace {

std::size_t count_lines(const std::vector<CardLines>& steps) {
    return std::accumulate(steps.begin(), steps.end(), std::size_t{0},
                           [](std::size_t sum, const CardLines& step) { return sum + step.size(); });
}

// Both columns as short as they can be, in the order of the steps.
void fill_columns(std::vector<CardLines> steps, CardSheet& sheet) {
    const std::size_t all = count_lines(steps);
    std::size_t first = 0, best = 0, shortest = all;
    for (std::size_t cut = 1; cut <= steps.size(); ++cut) {
        first += steps[cut - 1].size();
        const std::size_t longer = std::max(first, all - first);
        if (longer > shortest) break;
        shortest = longer;
        best = cut;
    }
    const auto cut = steps.begin() + static_cast<std::ptrdiff_t>(best);
    sheet.columns[0].assign(steps.begin(), cut);
    sheet.columns[1].assign(cut, steps.end());
    sheet.column_lines = shortest;
}

}  // namespace

std::string_view word(Paper paper) {
    return paper == Paper::A4 ? "a4" : "letter";
}

// At 7.4 points a letter of a fixed-width face is 4.46 points wide at most and a line 8.4 points high; the
// margins are 8 mm (card_html.cpp). A4: 194 x 281 mm = 550 x 797 points. Letter: 199.9 x 263.4 mm = 567 x 747
// points.
SheetSize size_of(Paper paper) {
    return paper == Paper::A4 ? SheetSize{123, 60, 94} : SheetSize{127, 62, 88};
}

std::size_t CardSheet::lines() const {
    const std::size_t between = column_lines > 0 ? 2 : 1;
    return head.size() + column_lines + foot.size() + between;
}

CardSheet laid_out(const advice::Card& card, const std::string& subject, Paper paper) {
    const SheetSize size = size_of(paper);
    CardSheet sheet;
    sheet.head = head_lines(card, subject, size.width);
    const std::vector<std::string> cautions = cautions_of(card);
    std::vector<CardLines> steps;
    for (const advice::CardStep& step : card.steps)
        steps.push_back(step_lines(step, cautions, size.column_width));
    fill_columns(std::move(steps), sheet);
    sheet.foot = foot_lines(card, size.width);
    return sheet;
}

std::size_t sheet_lines(const advice::Card& card, const std::string& subject, Paper paper) {
    return laid_out(card, subject, paper).lines();
}

}  // namespace halfsplit::report
