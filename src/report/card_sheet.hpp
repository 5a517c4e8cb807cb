// The lines of a card laid out on one sheet.
#pragma once

#include "halfsplit/report/card_report.hpp"

#include "report/card_lines.hpp"

#include <array>

namespace halfsplit::report {

struct CardSheet {
    CardLines head;
    std::array<std::vector<CardLines>, 2> columns;  // steps
    std::size_t column_lines = 0;                   // of the longer column
    CardLines foot;

    std::size_t lines() const;  // with a line between the three
};

CardSheet laid_out(const advice::Card& card, const std::string& subject, Paper paper);

}  // namespace halfsplit::report
