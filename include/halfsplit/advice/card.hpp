// The whole plan of a hunt as numbered steps, to be taken along on paper: which reading or look, where, what
// to arrange and to take off before it, and after each outcome which step is next. Readings are believed, and
// there is one fault on this bus; whatever does not go like that is for the screen.
#pragma once

#include "halfsplit/advice/aim.hpp"
#include "halfsplit/advice/quote.hpp"
#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/advice/right_resistance.hpp"
#include "halfsplit/advice/survey.hpp"
#include "halfsplit/harness/harness.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::advice {

struct CardOutcome {
    std::string shows;  // as in Forecast
    // What the meter may show to be taken for it, OL by itself infinity; of a reading in ohms and in volts.
    // Those of one step do not overlap. Both 0 for a look, for a scan, and where the point is not there.
    double low_ohm = 0, high_ohm = 0;
    double low_volt = 0, high_volt = 0;
    std::vector<std::string> answering{};  // of a scan: ids
    double chance = 0;                     // of all hunts
    std::size_t goes_to = 0;               // number of a step; 0: the hunt is over
    std::vector<std::string> parts{};      // over: the part it is, or those it may be
};

struct CardStep {
    std::size_t number = 0;  // from 1; a step comes before those it leads to
    Action action = Action::Read;
    Spot red, black, target;  // as in Recommendation
    bool same_half = false;   // the reading before it, on the way to it, was at the same connector half
    std::string quantity = "ohm", bus;
    bool move_loom = false;
    std::vector<Preparation> prepare;  // as things were left on the way to this step
    std::string travel_to;
    double travel_minutes = 0;
    std::vector<CoverStep> covers;  // those still on, on the way to this step
    std::vector<std::string> cautions;
    double minutes = 0;
    double chance = 0;  // of all hunts, of coming to it
    std::vector<CardOutcome> outcomes;
    double folded = 0;  // chance of all hunts that come back to the screen from here; what goes on after a
                        // mend that did not cure is among them
};

struct CardItem {
    std::string id, name;
};

struct Card {
    std::string title;  // of the harness
    std::string network, network_name;
    std::string clip;                      // point where the clip sits at the beginning
    Spot clip_high, clip_low;              // its lines
    std::optional<RightResistance> right;  // H to L there on a sound bus, where that is known
    std::string place;                     // where one stands at the beginning
    bool scanned = false;                  // it is known who answers
    Left::Stage stage = Left::Stage::Hunting;
    std::string found;  // as in Left
    Aim aim;
    Quote quote;                       // of the plan that the card is made of, folded or not
    double share = 0;                  // of all hunts, those that end on the card
    std::vector<CardStep> steps;       // empty unless hunting
    std::vector<CardItem> covers_off;  // already
    std::vector<CardItem> apart;       // parts that are unplugged already
    std::vector<std::string> assumed;  // which figures behind this are assumptions, in words
};

// What a hunt comes to with a smaller chance is left to the screen.
inline constexpr double least_card_chance = 0.01;

// The card for a hunt that has not begun: as survey() quotes it. No steps where the bus has no probe point.
Card card(const harness::Harness& harness, harness::Index network, const Aim& aim = {});

// The steps of it that are kept (not 0, by step) and led to by those that are, numbered anew, without those
// that lead nowhere; what is left out is folded. `share` and `folded` are those of the result. Linear.
Card folded(const Card& card, std::vector<char> kept);

// Of all steps: covers to put back and parts to plug in at the end, those of the beginning first.
std::vector<CardItem> to_refit(const Card& card);
std::vector<CardItem> to_reconnect(const Card& card);

}  // namespace halfsplit::advice
