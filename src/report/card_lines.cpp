#include "report/card_lines.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/card_line_list.hpp"
#include "report/quote.hpp"
#include "report/step_words.hpp"

#include <cmath>
#include <string_view>
#include <utility>

namespace halfsplit::report {

using Stage = advice::Left::Stage;

namespace {

std::string ends_words(const advice::Card& card) {
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

std::string stage_words(const advice::Card& card) {
    switch (card.stage) {
        case Stage::Hunting:
            return card.clip.empty() ? "the bus has no point to clip to: nothing can be planned"
                   : card.steps.empty()
                       ? "no step fits the sheet; the plan is on the screen (halfsplit hunt or next)"
                       : "";
        case Stage::NothingFound:
            return "nothing is likely to be wrong on this bus as far as the readings can tell: supply and "
                   "ground of the silent modules before any module is suspected";
        case Stage::NotTold:
            return "what may be wrong could not be reached, or looks did not tell: look again, or renew what "
                   "is "
                   "likeliest, and then PROOF";
        case Stage::Found:
            return fmt::format("{} was seen to be faulty: mend it, then PROOF", card.found);
        case Stage::Mended:
            return "a repair waits for its PROOF";
        case Stage::Cured:
            return "the repair is proven: refit and close";
    }
    return "";
}

std::string clip_words(const advice::Card& card) {
    const std::string place = card.clip_high.place_name.empty() ? "" : ", at " + card.clip_high.place_name;
    if (card.clip_low.name.empty()) return "a lead on " + lead_words(card.clip_high) + place;
    return fmt::format("a two-core lead on {} and {}{}", lead_words(card.clip_high),
                       lead_words(card.clip_low), place);
}

// A box to tick for each.
std::string boxes(const std::vector<advice::CardItem>& all, bool with_id) {
    std::vector<std::string> words;
    for (const advice::CardItem& one : all)
        words.push_back("[_]" + (with_id || one.name.empty() ? with_name(one.id, one.name) : one.name));
    return join(words, "  ");
}

}  // namespace

CardLines head_lines(const advice::Card& card, const std::string& subject, std::size_t width) {
    LineList list(width);
    const std::string bus = with_name(card.network, card.network_name);
    list.add(fmt::format("DECISION CARD: {}, bus {} ({})", card.title, bus, subject), 0, true);
    list.add_labelled("SAFE", "Before any ohms: " + std::string(safe_state_words), true);
    const std::vector<std::string> cautions = cautions_of(card);
    std::string care;
    for (std::size_t i = 0; i < cautions.size(); ++i)
        care += fmt::format("{}({}) {}", i == 0 ? "" : " ", caution_letter(i), cautions[i]);
    list.add_labelled("CARE", care);
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

CardLines foot_lines(const advice::Card& card, std::size_t width) {
    LineList list(width);
    list.add_labelled("MEND", std::string(mending_words));
    const bool single_line = card.clip_low.name.empty();
    list.add_labelled("PROOF", (single_line ? proving_words_of_line() : proving_words(card.right)) +
                                   " Not cured: " + std::string(screen_words) + ".");
    list.add_labelled("refit", boxes(to_refit(card), false));
    list.add_labelled("plug in", boxes(to_reconnect(card), true));
    return std::move(list).lines();
}

std::string blank_reading(std::size_t width) {
    const std::string step = "   step ____  shown ";
    return step + std::string(width > step.size() ? width - step.size() : 0, '_');
}

}  // namespace halfsplit::report
