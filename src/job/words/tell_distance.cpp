#include "tell_distance.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/job/words.hpp"

#include <fmt/format.h>

#include <cmath>

namespace halfsplit::job {

namespace {

using electrics::DistanceLines;
using electrics::DistanceMethod;
using harness::Harness;
using harness::Index;

// As printed on the drawing.
std::string line_measured(const Distance& distance, const Harness& harness) {
    const bool low = distance.lines == DistanceLines::Low;
    const Index point = harness::find_point(harness, distance.from);
    const Index network = point == harness::none ? harness::none : harness.points[point].network;
    const std::string printed =
        network == harness::none ? "" : harness.networks[network].line_name.at(low ? 1 : 0);
    return "line " + (printed.empty() ? (low ? "L" : "H") : printed);
}

std::string fault_words(const Distance& distance, const Harness& harness) {
    const bool between = distance.lines == DistanceLines::Between;
    if (distance.method == DistanceMethod::Capacitance)
        return between ? "an open of either line" : "an open of " + line_measured(distance, harness);
    return between ? "a short from line to line" : "a short to ground of " + line_measured(distance, harness);
}

// Near the middle, by twice the uncertainty: there a line without an open reads alike from both ends.
bool may_be_whole(const Distance& distance) {
    if (distance.method != DistanceMethod::Capacitance || distance.first <= 0) return false;
    const double length = distance.metres * (distance.first + distance.second) / distance.first;
    return std::abs(distance.metres - length / 2) <= 2 * distance.deviation;
}

}  // namespace

std::string measured_words(const Distance& distance, const Harness& harness) {
    std::string fault = "Distance to " + fault_words(distance, harness);
    switch (distance.method) {
        case DistanceMethod::Capacitance:
            return fmt::format("{}, {} {}, {} {}", fault, distance.from, format_farad(distance.first),
                               distance.to, format_farad(distance.second));
        case DistanceMethod::Ohms:
            return fmt::format("{}, {} {}, {} {}", fault, distance.from, format_ohm(distance.first),
                               distance.to, format_ohm(distance.second));
        case DistanceMethod::Loop:
            return fmt::format("{}, bridge at {} with P {:g} and Q {:g}, lines joined at {}", fault,
                               distance.from, distance.first, distance.second, distance.to);
    }
    return fault;
}

std::string where_it_lies(const Distance& distance, const Harness& harness) {
    const Index run = harness::find_part(harness, distance.run);
    const bool named =
        run != harness::none && !harness.parts[run].name.empty() && harness.parts[run].name != distance.run;
    const std::string name =
        named ? fmt::format("{} ({})", distance.run, harness.parts[run].name) : distance.run;
    std::string text =
        fmt::format("{} from {}, give or take {}; that is in run {}, {} from its end at {}",
                    format_metres(distance.metres), distance.from, format_metres(distance.deviation), name,
                    format_metres(distance.metres_into_run), distance.run_end);
    if (!distance.also.empty()) text += fmt::format(", with {} within that", join_words(distance.also));
    if (may_be_whole(distance)) text += "; a whole line reads so too";
    return text;
}

}  // namespace halfsplit::job
