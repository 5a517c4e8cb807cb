// Words of a step that the screen and the paper share.
#pragma once

#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/advice/right_resistance.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace halfsplit::report {

std::string named_part_words(const advice::Spot& spot);  // "X3 (dash to floor)", "S1"
std::string terminal_words(const advice::Spot& spot);    // "X3.a cavity 4, line H"
std::string lead_words(const advice::Spot& spot);        // with the colour: "X3.a cavity 4, line H: green"
std::string half_words(const advice::Spot& spot);        // ""dash to floor", plug side", or nothing
std::string companion_words(const advice::OtherWire& other);  // "5 green, seat bus"
// "LOOK-ALIKE, same colours: cavity 5, seat bus"; nothing where there is none.
std::string look_alike_words(const advice::Spot& spot);
std::string cover_words(const advice::CoverStep& cover);  // "kick panel: 3 min off, 5 min on"

// What is unplugged, plugged in or clipped, beside a label of its own; an empty label for the battery.
struct LabelledWords {
    std::string_view label;
    std::string words;
};
LabelledWords preparation_words(const advice::Preparation& first);

// What is on while volts are read; the words are the same whether it has to be switched on or is on already.
inline constexpr std::string_view awake_words = "battery on, ignition on, bus awake";
inline constexpr std::string_view asleep_words =
    "battery on, ignition off, bus asleep (left alone until it sleeps)";
inline constexpr std::string_view live_care =
    "Live circuit: the maker's procedure for connecting the battery and for measuring under power comes "
    "first, and local rules. Insulated tips, one hand, nothing bridged, no meter on an airbag igniter; high "
    "voltage (orange) only by qualified people.";
inline constexpr std::string_view scan_care =
    "The battery is on while the bus is in pieces: the maker's procedure and local rules come first, never "
    "with a connector of an airbag or belt tensioner apart; high voltage (orange) only by qualified people. "
    "Unplugged modules leave codes to clear afterwards.";

inline constexpr std::string_view safe_state_words =
    "ignition off, bus asleep, battery off, and the vehicle maker's waiting time over. Never a meter on an "
    "airbag igniter; no piercing of insulation; high voltage (orange) only by qualified people. The maker's "
    "procedure and local rules come first.";
inline constexpr std::string_view mending_words =
    "After the maker's procedure. Untwist no more than 50 to 100 mm; no bypass wires (common practice).";
// Of a bus, of a single line; with what the bus should show, where that is known.
std::string proving_words(const std::optional<advice::RightResistance>& right);
std::string proving_words_of_line();

}  // namespace halfsplit::report
