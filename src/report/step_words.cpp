#include "report/step_words.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/quote.hpp"

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

}  // namespace halfsplit::report
