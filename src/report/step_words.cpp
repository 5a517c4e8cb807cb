#include "report/step_words.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/quote.hpp"

#include <cmath>
#include <vector>

namespace halfsplit::report {

using advice::Spot;

std::string named_part_words(const Spot& spot) {
    return with_name(spot.part, spot.part_name);
}

std::string terminal_words(const Spot& spot) {
    if (spot.part.empty())
        return spot.part_name.empty() ? spot.name : fmt::format("{} ({})", spot.name, spot.part_name);
    const std::string line = spot.line.empty() ? "" : ", line " + spot.line;
    if (spot.kind == "splice") return named_part_words(spot) + line;
    std::string text =
        spot.half.empty() ? named_part_words(spot) : fmt::format("{}.{}", spot.part, spot.half);
    return text + " cavity " + spot.cavity + line;
}

std::string lead_words(const Spot& spot) {
    return terminal_words(spot) + (spot.colour.empty() ? "" : ": " + spot.colour);
}

std::string half_words(const Spot& spot) {
    if (spot.half.empty()) return "";
    std::string text = fmt::format("\"{}\"", spot.part_name);
    if (!spot.half_name.empty()) text += ", " + spot.half_name;
    return text;
}

std::string companion_words(const advice::OtherWire& other) {
    return fmt::format("{} {}, {}", other.cavity, other.colour, other.circuit);
}

std::string look_alike_words(const Spot& spot) {
    std::vector<std::string> alike;
    for (const advice::OtherWire& other : spot.others)
        if (other.look_alike) alike.push_back(fmt::format("{}, {}", other.cavity, other.circuit));
    return alike.empty() ? "" : "LOOK-ALIKE, same colours: cavity " + join(alike, "; cavity ");
}

std::string cover_words(const advice::CoverStep& cover) {
    return fmt::format("{}: {} off, {} on", cover.name, format_minutes(cover.off_minutes),
                       format_minutes(cover.on_minutes));
}

LabelledWords preparation_words(const advice::Preparation& first) {
    if (first.spot.name.empty()) return {};
    if (first.step == "clip") return {"re-clip", "the lead to " + terminal_words(first.spot)};
    const std::string what = fmt::format("{} {}", first.spot.kind, named_part_words(first.spot));
    if (first.step == "plug") return {"plug in", what};
    return {"unplug", fmt::format("{}; {} with plugging in again", what, format_minutes(first.minutes))};
}

namespace {

std::string right_words(const advice::RightResistance& right) {
    const bool kilohms = right.low_ohm >= 1000 || right.high_ohm >= 1000;
    std::string band = kilohms ? format_ohm(right.low_ohm) : fmt::format("{:.3g}", right.low_ohm);
    if (std::isinf(right.high_ohm)) {
        band += " and more";
    } else {
        band += " to " + (kilohms ? format_ohm(right.high_ohm) : fmt::format("{:.3g}", right.high_ohm));
    }
    if (right.nominal_ohm)
        return fmt::format(" ({} nominal; {} accepted, common practice)", format_ohm(*right.nominal_ohm),
                           band);
    return fmt::format(" ({}{} accepted)", right.by_modules ? "no terminators: " : "", band);
}

}  // namespace

std::string proving_words(const std::optional<advice::RightResistance>& right) {
    return "everything plugged in, then H to L at the clip" +
           (right ? right_words(*right) : " (as the maker states it)") +
           ", all modules answer, codes cleared and scanned again, the complaint tried again.";
}

std::string proving_words_of_line() {
    return "everything plugged in, the line read from end to end (below 1 to 2 ohm, common practice), all "
           "that it feeds works, the complaint tried again.";
}

}  // namespace halfsplit::report
