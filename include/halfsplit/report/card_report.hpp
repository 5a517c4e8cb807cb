// A card as text for a screen, as a sheet for print, and as data. Pure.
#pragma once

#include "halfsplit/advice/card.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>
#include <string_view>

namespace halfsplit::report {

enum class Paper { A4, Letter };
std::string_view word(Paper paper);  // "a4", "letter"

// What the paper holds, in characters and lines of the printed sheet.
struct SheetSize {
    std::size_t width = 0;         // of a line from edge to edge
    std::size_t column_width = 0;  // of a line in one of the two columns that the steps stand in
    std::size_t lines = 0;
};
SheetSize size_of(Paper paper);

// Lines that the card takes on that paper, its steps in two columns and none of them broken; more than
// size_of(paper).lines: it does not fit.
std::size_t sheet_lines(const advice::Card& card, const std::string& subject, Paper paper);

// The card with as many of its likeliest steps as fit one sheet.
advice::Card fitted(const advice::Card& card, const std::string& subject, Paper paper);

// `subject`: what it was made from, a file. Lines of at most `columns` (at least 30), each with its line end.
std::string card_text(const advice::Card& card, const std::string& subject, std::size_t columns);

// A page of its own for print: nothing to fetch, no script, all text escaped, black on white. One sheet where
// the card fits, and cut off at its end where not.
std::string card_html(const advice::Card& card, const std::string& subject, Paper paper);

// Schema docs/schema/card.schema.json. OL is the text "OL".
nlohmann::json card_json(const advice::Card& card, const std::string& subject, Paper paper);

}  // namespace halfsplit::report
