#include "report/card_lines.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/diagnosis/meter.hpp"

#include <fmt/format.h>

#include "report/page.hpp"
#include "report/quote.hpp"
#include "report/step_words.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

namespace halfsplit::report {

using advice::Action;
using advice::Card;
using advice::CardOutcome;
using advice::CardStep;
using Stage = advice::Left::Stage;

namespace {

constexpr std::size_t step_indent = 3, outcome_indent = 5, head_label = 8;
constexpr std::string_view screen_words = "come back to the screen";

class LineList {
  public:
    explicit LineList(std::size_t width) : width_(width) {}

    // A label in a column of its own.
    void add_labelled(std::string_view label, const std::string& text, bool strong = false) {
        Page page(width_);
        page.labelled(label, text, 0, head_label);
        take(page.text(), strong);
    }
    void add(const std::string& text, std::size_t indent, bool strong = false) {
        if (text.empty()) return;
        Page page(width_);
        page.paragraph(text, indent);
        take(page.text(), strong);
    }
    // The first line from the left edge and begun by a number, the others further in.
    void add_numbered(const std::string& number, const std::string& text, std::size_t indent, bool strong) {
        const std::size_t first = lines_.size();
        take(wrap(number + printable(text), width_, indent) + '\n', strong);
        lines_[first].strong_bytes = number.size();
    }
    CardLines lines() && { return std::move(lines_); }

  private:
    void take(const std::string& text, bool strong) {
        for (std::size_t at = 0; at < text.size();) {
            const std::size_t end = text.find('\n', at);
            lines_.push_back({text.substr(at, end - at), strong});
            at = end + 1;
        }
    }

    std::size_t width_;
    CardLines lines_;
};

std::vector<std::string> cautions_of_step(const CardStep& step) {
    std::vector<std::string> all = step.cautions;
    if (step.quantity == "volt") all.emplace_back(live_care);
    if (step.action == Action::Scan) all.emplace_back(scan_care);
    return all;
}

char letter(std::size_t number) {
    return static_cast<char>('a' + std::min<std::size_t>(number, 25));
}

// What the cautions are about, with the letters that their whole sentences stand at.
std::string short_cautions(const CardStep& step, const std::vector<std::string>& all) {
    constexpr std::size_t most = 45;
    std::vector<std::string> words;
    for (const std::string& caution : cautions_of_step(step)) {
        const auto own = std::find(all.begin(), all.end(), caution);
        const std::string at = fmt::format("({})", letter(static_cast<std::size_t>(own - all.begin())));
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
std::string tip_words(const advice::Spot& spot) {
    if (spot.half.empty()) return lead_words(spot);
    const std::string side = spot.half_name.empty() ? "" : ", " + spot.half_name;
    return fmt::format("{} (\"{}\"{})", lead_words(spot), spot.part_name, side);
}

std::string other_tip_words(const CardStep& step) {
    const advice::Spot& black = step.black;
    if (black.name == "ground" && step.quantity == "volt") return "any good ground near by";
    if (black.clip) return fmt::format("{}line {}", step.red.clip ? "" : "the clip, ", black.line);
    const bool same_half = black.part == step.red.part && black.half == step.red.half;
    if (!same_half || black.cavity.empty()) return tip_words(black);
    return fmt::format("cavity {}, line {}: {}", black.cavity, black.line, black.colour);
}

std::string reading_words(const CardStep& step) {
    const std::string where =
        step.red.clip ? "READ at the clip, line " + step.red.line : "PROBE " + tip_words(step.red);
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
    std::string sound(screen_words), not_cured;
    for (const CardOutcome& outcome : step.outcomes)
        if (outcome.goes_to > 0) (outcome.faulty ? not_cured : sound) = where_next(outcome);
    if (!not_cured.empty()) not_cured.insert(0, "; mended and not cured: ");
    return fmt::format("LOOK: lay bare {} {}; sound: {}{}", step.target.kind, part_words(step.target), sound,
                       not_cured);
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
    for (const auto& [next, shows] : rows) list.add(fmt::format("{}: {}", shows, next), outcome_indent);
}

std::string ends_words(const Card& card) {
    const double share = card.share * 100;
    const std::string hunts = card.share > 0.995 && card.share < 1
                                  ? "more than 99"
                                  : fmt::format("{:.0f}", std::floor(share + 1e-9));
    return fmt::format(
        "{} in 100 hunts end on this card, if one fault is on this bus and every reading is right; the "
        "others "
        "come back to the screen",
        hunts);
}

std::string stage_words(const Card& card) {
    switch (card.stage) {
        case Stage::Hunting:
            return card.clip.empty() ? "the bus has no point to clip to: nothing can be planned"
                   : card.steps.empty()
                       ? "no step fits the sheet; the plan is on the screen (halfsplit hunt or next)"
                       : "";
        case Stage::NothingFound:
            return "nothing is likely to be wrong on this bus as far as the readings can tell: supply and "
                   "ground of the silent modules before any module is suspected";
        case Stage::Found:
            return fmt::format("{} was seen to be faulty: mend it, then PROOF", card.found);
        case Stage::Mended:
            return "a repair waits for its PROOF";
        case Stage::Cured:
            return "the repair is proven: refit and close";
    }
    return "";
}

std::string clip_words(const Card& card) {
    const std::string place = card.clip_high.place_name.empty() ? "" : ", at " + card.clip_high.place_name;
    return fmt::format("a two-core lead on {} and {}{}", lead_words(card.clip_high),
                       lead_words(card.clip_low), place);
}

// A box to tick for each.
std::string boxes(const std::vector<advice::CardItem>& all, bool with_id) {
    std::vector<std::string> words;
    for (const advice::CardItem& one : all)
        words.push_back("[_] " + (with_id || one.name.empty() ? with_name(one.id, one.name) : one.name));
    return join(words, "  ");
}

}  // namespace

std::vector<std::string> cautions_of(const Card& card) {
    std::vector<std::string> all;
    for (const CardStep& step : card.steps) {
        for (std::string& caution : cautions_of_step(step)) {
            if (std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(std::move(caution));
        }
    }
    return all;
}

CardLines head_lines(const Card& card, const std::string& subject, std::size_t width) {
    LineList list(width);
    const std::string bus = with_name(card.network, card.network_name);
    list.add(fmt::format("DECISION CARD: {}, bus {} ({})", card.title, bus, subject), 0, true);
    list.add_labelled("SAFE", "Before any ohms: " + std::string(safe_state_words), true);
    const std::vector<std::string> cautions = cautions_of(card);
    for (std::size_t i = 0; i < cautions.size(); ++i)
        list.add_labelled(i == 0 ? "CARE" : "", fmt::format("({}) {}", letter(i), cautions[i]));
    list.add_labelled("now", stage_words(card), true);
    if (card.steps.empty()) return std::move(list).lines();
    list.add_labelled("plan", quote_words(card.quote, card.aim, "step 1"));
    list.add_labelled("ends", ends_words(card), true);
    list.add_labelled("clip", clip_words(card));
    list.add_labelled(
        "use",
        fmt::format("Begin at step 1, at {}. A part that is seen to be faulty: MEND it, then PROOF. The "
                    "card believes every reading: meter on its automatic range, probe tried on a "
                    "known-good pin before an OL is believed. Anything else than a step names, or a "
                    "place that cannot be reached: {}.",
                    card.place, screen_words));
    return std::move(list).lines();
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
                              fmt::format("{}: {}", format_minutes(step.minutes), items[i].text), step_indent,
                              items[i].strong);
        else
            list.add(items[i].text, step_indent, items[i].strong);
    }
    add_outcomes(step, list);
    return std::move(list).lines();
}

CardLines foot_lines(const Card& card, std::size_t width) {
    LineList list(width);
    list.add_labelled("MEND", std::string(mending_words));
    list.add_labelled("PROOF", std::string(proof_words) + " Not cured: " + std::string(screen_words) + ".");
    list.add_labelled("refit", boxes(to_refit(card), false));
    list.add_labelled("plug in", boxes(to_reconnect(card), true));
    return std::move(list).lines();
}

std::string blank_reading(std::size_t width) {
    const std::string step = "   step ____  shown ";
    return step + std::string(width > step.size() ? width - step.size() : 0, '_');
}

}  // namespace halfsplit::report
