#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/diagnosis/meter.hpp"

#include <fmt/format.h>

#include "report/card_line_list.hpp"
#include "report/card_lines.hpp"
#include "report/step_words.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

namespace halfsplit::report {

using advice::Action;
using advice::CardOutcome;
using advice::CardStep;

namespace {

constexpr std::size_t card_step_indent = 3, card_outcome_indent = 5;

std::vector<std::string> cautions_of_step(const CardStep& step) {
    std::vector<std::string> all = step.cautions;
    if (step.quantity == "volt") all.emplace_back(live_care);
    if (step.action == Action::Scan) all.emplace_back(scan_care);
    return all;
}

// What the cautions are about, with the letters that their whole sentences stand at.
std::string short_cautions(const CardStep& step, const std::vector<std::string>& all) {
    constexpr std::size_t most = 45;
    std::vector<std::string> words;
    for (const std::string& caution : cautions_of_step(step)) {
        const auto own = std::find(all.begin(), all.end(), caution);
        const std::string at =
            fmt::format("({})", caution_letter(static_cast<std::size_t>(own - all.begin())));
        const std::size_t colon = caution.find(':');
        words.push_back(colon == std::string::npos || colon > most ? at
                                                                   : caution.substr(0, colon) + " " + at);
    }
    return words.empty() ? "" : "CARE: " + join(words, ", ");
}

void add_way_there(const std::string& place, const std::vector<advice::CoverStep>& covers,
                   std::vector<std::string>& words) {
    if (!place.empty()) words.push_back("go to " + place);
    for (const advice::CoverStep& cover : covers) words.push_back("open " + cover_words(cover));
}

void add_first(const advice::Preparation& first, std::vector<std::string>& words) {
    if (first.step == "power-off") words.emplace_back("battery off, the maker's waiting time over");
    if (first.step == "wake") words.emplace_back(awake_words);
    if (first.step == "sleep") words.emplace_back(asleep_words);
    if (first.spot.name.empty()) return;
    add_way_there(first.travel_to, first.covers, words);
    const LabelledWords what = preparation_words(first);
    words.push_back(fmt::format("{} {}", what.label, what.words));
}

// What comes before the step itself, in order.
std::string way_words(const CardStep& step) {
    std::vector<std::string> words;
    for (const advice::Preparation& first : step.prepare) add_first(first, words);
    add_way_there(step.travel_to, step.covers, words);
    return join(words, "; ");
}

// Without what kind of part it is; the card has little room.
std::string tip_words(const advice::Spot& spot, bool known = false) {
    if (spot.half.empty() || known) return lead_words(spot);
    const std::string side = spot.half_name.empty() ? "" : ", " + spot.half_name;
    return fmt::format("{} (\"{}\"{})", lead_words(spot), spot.part_name, side);
}

std::string line_suffix(const advice::Spot& spot) {
    return spot.line.empty() ? "" : ", line " + spot.line;
}

std::string other_tip_words(const CardStep& step) {
    const advice::Spot& black = step.black;
    if (black.name == "ground" && step.quantity == "volt") return "any good ground near by";
    if (black.clip && black.line.empty()) return "the clip";
    if (black.clip) return fmt::format("{}line {}", step.red.clip ? "" : "the clip, ", black.line);
    const bool same_half = black.part == step.red.part && black.half == step.red.half;
    if (!same_half || black.cavity.empty()) return tip_words(black);
    return fmt::format("cavity {}{}: {}", black.cavity, line_suffix(black), black.colour);
}

std::string reading_words(const CardStep& step) {
    const std::string where = step.red.clip ? "READ at the clip" + line_suffix(step.red)
                                            : "PROBE " + tip_words(step.red, step.same_half);
    return fmt::format("{}{} against {}{}{}", where, step.red.clip ? "" : ";", other_tip_words(step),
                       step.quantity == "volt" ? "; VOLTS" : "",
                       step.move_loom ? "; MOVE the loom by hand while you read" : "");
}

std::string short_look_alikes(const advice::Spot& spot) {
    std::vector<std::string> alike;
    for (const advice::OtherWire& other : spot.others)
        if (other.look_alike) alike.push_back(fmt::format("{} ({})", other.cavity, other.circuit));
    return alike.empty() ? "" : "LOOK-ALIKE, same colours: cavity " + join(alike, ", ");
}

std::string range_words(double low, double high) {
    if (!std::isfinite(low)) return "OL (open)";
    const std::string to = format_ohm(high);
    if (low <= 0) return "below " + to;
    if (high >= diagnosis::meter_limit_ohm) return "above " + format_ohm(low) + ", not OL";
    std::string from = format_ohm(low);
    const std::size_t unit = to.find(' ');
    // "100 to 140 ohm".
    if (unit != std::string::npos && from.size() > to.size() - unit &&
        from.compare(from.size() - (to.size() - unit), std::string::npos, to, unit) == 0)
        from.resize(from.size() - (to.size() - unit));
    return from + " to " + to;
}

std::string shown_words(const CardStep& step, const CardOutcome& outcome) {
    const bool ohms = outcome.high_ohm > 0;
    const bool volts = outcome.low_volt != 0 || outcome.high_volt != 0;
    if (volts) {
        return fmt::format("{} ({} to {} at rest)", outcome.shows, format_volt(outcome.low_volt),
                           format_volt(outcome.high_volt));
    }
    if (step.action != Action::Read || !ohms) return outcome.shows;
    const std::string range = range_words(outcome.low_ohm, outcome.high_ohm);
    return outcome.shows.rfind("about", 0) == 0 ? fmt::format("{} ({})", range, outcome.shows) : range;
}

std::string where_next(const CardOutcome& outcome) {
    if (outcome.goes_to > 0) return fmt::format("step {}", outcome.goes_to);
    return outcome.parts.size() == 1 ? "it is " + outcome.parts.front()
                                     : "it is one of " + join(outcome.parts, ", ");
}

std::string look_words(const CardStep& step) {
    std::string sound = "to the screen";
    for (const CardOutcome& outcome : step.outcomes)
        if (outcome.goes_to > 0) sound = where_next(outcome);
    return fmt::format("LOOK: lay bare {} {}; sound: {}", step.target.kind, named_part_words(step.target),
                       sound);
}

std::string what_to_do(const CardStep& step) {
    if (step.action == Action::Look) return look_words(step);
    if (step.action == Action::Scan) return "ASK which modules answer at the diagnostic socket";
    return reading_words(step);
}

// What leads to the same step in a line.
void add_outcomes(const CardStep& step, LineList& list) {
    if (step.action == Action::Look) return;
    std::vector<std::pair<std::string, std::string>> rows;  // where next, what the meter shows
    for (const CardOutcome& outcome : step.outcomes) {
        const std::string next = where_next(outcome);
        const auto own =
            std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.first == next; });
        if (own == rows.end())
            rows.emplace_back(next, shown_words(step, outcome));
        else
            own->second += " or " + shown_words(step, outcome);
    }
    for (const auto& [next, shows] : rows) list.add(fmt::format("{}: {}", shows, next), card_outcome_indent);
}

}  // namespace

std::vector<std::string> cautions_of(const advice::Card& card) {
    std::vector<std::string> all;
    for (const CardStep& step : card.steps) {
        for (std::string& caution : cautions_of_step(step)) {
            if (std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(std::move(caution));
        }
    }
    return all;
}

CardLines step_lines(const CardStep& step, const std::vector<std::string>& cautions, std::size_t width) {
    std::vector<CardLine> items{{short_cautions(step, cautions), true},
                                {way_words(step), false},
                                {what_to_do(step), true},
                                {short_look_alikes(step.red), true}};
    items.erase(
        std::remove_if(items.begin(), items.end(), [](const CardLine& item) { return item.text.empty(); }),
        items.end());
    LineList list(width);
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (i == 0)
            list.add_numbered(fmt::format("{:>2} ", step.number),
                              fmt::format("{}: {}", format_minutes(step.minutes), items[i].text),
                              card_step_indent, items[i].strong);
        else
            list.add(items[i].text, card_step_indent, items[i].strong);
    }
    add_outcomes(step, list);
    return std::move(list).lines();
}

}  // namespace halfsplit::report
