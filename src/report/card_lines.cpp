#include "report/card_lines.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/page.hpp"
#include "report/quote.hpp"
#include "report/step_words.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace halfsplit::report {

using advice::Action;
using advice::Card;
using advice::CardOutcome;
using advice::CardStep;
using Stage = advice::Left::Stage;

namespace {

constexpr std::size_t step_indent = 3, step_label = 8, head_label = 8;
constexpr std::string_view screen_words = "come back to the screen";

class LineList {
  public:
    LineList(std::size_t width, std::size_t indent, std::size_t label)
        : width_(width), indent_(indent), label_(label) {}

    void add(std::string_view label, const std::string& text, bool strong = false) {
        Page page(width_);
        page.labelled(label, text, indent_, label_);
        take(page.text(), strong);
    }
    // From the left edge; what goes on stands under the labels.
    void add_title(const std::string& text) {
        Page page(width_);
        page.paragraph(text);
        take(page.text(), true);
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

    std::size_t width_, indent_, label_;
    CardLines lines_;
};

bool is_airing(const CardStep& step) {
    return step.action == Action::Scan;
}

std::vector<std::string> cautions_of_step(const CardStep& step) {
    std::vector<std::string> all = step.cautions;
    if (step.quantity == "volt") all.emplace_back(live_care);
    if (is_airing(step)) all.emplace_back(scan_care);
    return all;
}

char letter(std::size_t number) {
    return static_cast<char>('a' + std::min<std::size_t>(number, 25));
}

// What a caution is about, with the letter that its whole sentence stands at.
std::string short_caution(const std::string& caution, const std::vector<std::string>& all) {
    constexpr std::size_t most = 30;
    const auto own = std::find(all.begin(), all.end(), caution);
    if (own == all.end()) return caution;
    const std::string at = fmt::format("see ({}) above", letter(static_cast<std::size_t>(own - all.begin())));
    const std::size_t colon = caution.find(':');
    return colon == std::string::npos || colon > most ? at : caution.substr(0, colon) + ": " + at;
}

void add_way_there(const std::string& place, const std::vector<advice::CoverStep>& covers, LineList& list) {
    if (!place.empty()) list.add("go to", place);
    for (const advice::CoverStep& cover : covers) list.add("open", cover_words(cover));
}

void add_first(const advice::Preparation& first, LineList& list) {
    if (first.step == "power-off") list.add("power", "battery off, the maker's waiting time over", true);
    if (first.step == "wake") list.add("power", std::string(awake_words), true);
    if (first.step == "sleep") list.add("power", std::string(asleep_words), true);
    if (first.spot.name.empty()) return;
    add_way_there(first.travel_to, first.covers, list);
    const LabelledWords words = preparation_words(first);
    list.add(words.label, words.words, true);
}

void add_tip(std::string_view label, const advice::Spot& spot, LineList& list) {
    list.add(label, lead_words(spot), true);
    list.add("", half_words(spot));
    list.add("", look_alike_words(spot), true);
}

void add_probe(const CardStep& step, LineList& list) {
    if (step.red.clip) {
        list.add("READ", fmt::format("at the clip, {}", lead_words(step.red)), true);
    } else {
        add_tip("PROBE", step.red, list);
    }
    const bool same_half = step.black.part == step.red.part && step.black.half == step.red.half;
    if (step.black.name == "ground" && step.quantity == "volt") {
        list.add("against", "any good ground near by");
    } else if (step.black.clip && !step.red.clip) {
        list.add("against", fmt::format("the clip, line {}", step.black.line));
    } else if (step.black.clip || same_half || step.black.part.empty()) {
        list.add("against", lead_words(step.black));
    } else {
        add_tip("against", step.black, list);
    }
    if (step.move_loom) list.add("move", "the loom by hand while you read", true);
}

std::string range_words(double low, double high, std::string (*format)(double)) {
    if (!std::isfinite(low)) return "OL (open)";
    return low <= 0 ? "below " + format(high) : format(low) + " to " + format(high);
}

std::string shown_words(const CardStep& step, const CardOutcome& outcome) {
    const bool ohms = outcome.high_ohm > 0;
    const bool volts = outcome.low_volt != 0 || outcome.high_volt != 0;
    if (volts) {
        return fmt::format("{} ({} to {} at rest)", outcome.shows, format_volt(outcome.low_volt),
                           format_volt(outcome.high_volt));
    }
    if (step.action != Action::Read || !ohms) return outcome.shows;
    const std::string range = range_words(outcome.low_ohm, outcome.high_ohm, format_ohm);
    return outcome.shows.rfind("about", 0) == 0 ? fmt::format("{} ({})", outcome.shows, range) : range;
}

std::string where_next(const CardOutcome& outcome) {
    if (outcome.goes_to > 0) return fmt::format("step {}", outcome.goes_to);
    return outcome.parts.size() == 1 ? "it is " + outcome.parts.front()
                                     : "it is one of " + join(outcome.parts, ", ");
}

void add_look_outcomes(const CardStep& step, LineList& list) {
    bool sound = false;
    for (const CardOutcome& outcome : step.outcomes) {
        if (outcome.goes_to == 0) {
            list.add("faulty", fmt::format("it is {}: mend it, then PROOF", step.target.part));
        } else {
            sound = true;
            list.add("sound", where_next(outcome));
        }
    }
    if (!sound) list.add("sound", std::string(screen_words));
}

void add_reading_outcomes(const CardStep& step, LineList& list) {
    for (const CardOutcome& outcome : step.outcomes)
        list.add("if", fmt::format("{}: {}", shown_words(step, outcome), where_next(outcome)));
    if (step.folded > 0) list.add("else", std::string(screen_words));
}

std::string ends_words(const Card& card) {
    const double share = card.share * 100;
    const std::string hunts = card.share > 0.995 && card.share < 1
                                  ? "more than 99"
                                  : fmt::format("{:.0f}", std::floor(share + 1e-9));
    return fmt::format(
        "{} in 100 hunts end on this card, if one fault is on this bus and every reading is right; the others "
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
    return fmt::format("a two-core lead on {} and {}{}", lead_words(card.clip_high), lead_words(card.clip_low),
                       place);
}

// A box to tick for each.
std::string boxes(const std::vector<advice::CardItem>& all, bool with_id) {
    std::vector<std::string> words;
    for (const advice::CardItem& one : all)
        words.push_back("[ ] " + (with_id || one.name.empty() ? with_name(one.id, one.name) : one.name));
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
    LineList list(width, 0, head_label);
    const std::string bus = with_name(card.network, card.network_name);
    list.add_title(fmt::format("DECISION CARD: {}, bus {} ({})", card.title, bus, subject));
    list.add("SAFE", "Before any ohms: " + std::string(safe_state_words), true);
    const std::vector<std::string> cautions = cautions_of(card);
    for (std::size_t i = 0; i < cautions.size(); ++i)
        list.add(i == 0 ? "CARE" : "", fmt::format("({}) {}", letter(i), cautions[i]));
    list.add("now", stage_words(card), true);
    if (card.steps.empty()) return std::move(list).lines();
    list.add("plan", quote_words(card.quote, card.aim, "here"));
    list.add("ends", ends_words(card), true);
    list.add("clip", clip_words(card));
    list.add("use",
             fmt::format("Begin at step 1, at {}; do what a step says from top to bottom. The card believes "
                         "every reading: try the probe on a known-good pin before an OL is believed, the meter "
                         "on its automatic range. A reading that fits no line of its step, or a place that "
                         "cannot be reached: {}.",
                         card.place, screen_words));
    return std::move(list).lines();
}

CardLines step_lines(const CardStep& step, const std::vector<std::string>& cautions, std::size_t width) {
    LineList list(width, step_indent, step_label);
    const bool look = step.action == Action::Look;
    const std::string what = look ? "look" : is_airing(step) ? "scan" : "reading";
    list.add_title(fmt::format("{:>2} {}, {}", step.number, what, format_minutes(step.minutes)));
    for (const std::string& caution : cautions_of_step(step))
        list.add("CARE", short_caution(caution, cautions), true);
    for (const advice::Preparation& first : step.prepare) add_first(first, list);
    add_way_there(step.travel_to, step.covers, list);
    if (look) {
        list.add("LOOK", fmt::format("lay bare {} {}", step.target.kind, part_words(step.target)), true);
        add_look_outcomes(step, list);
        return std::move(list).lines();
    }
    if (is_airing(step)) {
        list.add("ASK", "which modules answer at the diagnostic socket", true);
    } else {
        add_probe(step, list);
    }
    add_reading_outcomes(step, list);
    return std::move(list).lines();
}

CardLines foot_lines(const Card& card, std::size_t width) {
    LineList list(width, 0, head_label);
    list.add("MEND", std::string(mending_words));
    list.add("PROOF", std::string(proof_words) + " Not cured: " + std::string(screen_words) + ".");
    list.add("refit", boxes(to_refit(card), false));
    list.add("plug in", boxes(to_reconnect(card), true));
    return std::move(list).lines();
}

std::string blank_reading(std::size_t width) {
    const std::string step = "   step ____  shown ";
    return step + std::string(width > step.size() ? width - step.size() : 0, '_');
}

}  // namespace halfsplit::report
