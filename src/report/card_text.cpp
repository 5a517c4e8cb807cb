#include "halfsplit/report/card_report.hpp"

#include "report/card_lines.hpp"

#include <algorithm>

namespace halfsplit::report {

std::string card_text(const advice::Card& card, const std::string& subject, std::size_t columns) {
    const std::size_t width = std::max<std::size_t>(columns, 30);
    std::string text;
    const auto add = [&](const CardLines& lines) {
        if (!text.empty()) text += '\n';
        for (const CardLine& line : lines) text += line.text + '\n';
    };
    add(head_lines(card, subject, width));
    const std::vector<std::string> cautions = cautions_of(card);
    for (const advice::CardStep& step : card.steps) add(step_lines(step, cautions, width));
    add(foot_lines(card, width));
    return text;
}

}  // namespace halfsplit::report
