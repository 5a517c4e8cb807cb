#include "halfsplit/report/spoken.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

namespace halfsplit::report {

using advice::Action;
using advice::Recommendation;
using advice::Spot;

namespace {

std::string spoken_minutes(double minutes) {
    const double whole = std::max(1.0, std::round(minutes));
    return fmt::format("{:.0f} minute{}", whole, whole == 1 ? "" : "s");
}

std::string spoken_spot(const Spot& spot) {
    if (spot.clip) return "the clip";
    if (spot.part.empty()) return spot.name;
    std::string words = spot.part;
    if (!spot.half.empty()) words += " half " + spot.half;
    if (!spot.cavity.empty() && spot.kind != "splice") words += ", cavity " + spot.cavity;
    if (spot.kind == "splice" && !spot.line.empty()) words += ", line " + spot.line;
    return spot.colour.empty() ? words : words + ", " + spot.colour;
}

std::string spoken_covers(const std::vector<advice::CoverStep>& covers) {
    std::vector<std::string> names;
    for (const advice::CoverStep& cover : covers) names.push_back(cover.name);
    return names.empty() ? "" : "take off " + join_words(names);
}

// "go to the cab, take off kick panel": empty where one stands there already.
std::string spoken_way(const std::string& place, const std::vector<advice::CoverStep>& covers) {
    std::string off = spoken_covers(covers);
    if (place.empty()) return off;
    return "go to " + place + (off.empty() ? "" : ", " + off);
}

std::string spoken_preparation(const advice::Preparation& first) {
    if (first.spot.name.empty()) return first.step == "power-off" ? "battery off" : "battery on";
    const std::string way = spoken_way(first.travel_to, first.covers);
    const std::string part = first.spot.part.empty() ? first.spot.name : first.spot.part;
    const std::string what = first.step == "clip"   ? "clip to " + spoken_spot(first.spot)
                             : first.step == "plug" ? "plug in " + part
                                                    : "unplug " + part;
    return way.empty() ? what : way + ", " + what;
}

std::string spoken_act(const Recommendation& advice) {
    switch (advice.action) {
        case Action::Intake:
            return "what is the complaint?";
        case Action::Scan:
            return "which modules stay silent?";
        case Action::SafeState:
            return "make it safe: ignition off, bus asleep, battery off, waiting time over.";
        case Action::Read: {
            if (advice.red.clip && advice.black.clip) return "read H to L at the clip.";
            const std::string other =
                advice.black.name == "ground" ? std::string("ground") : spoken_spot(advice.black);
            return fmt::format("read {}{} against {}{}.", advice.quantity == "volt" ? "volts at " : "",
                               spoken_spot(advice.red), other,
                               advice.move_loom ? " while moving the loom" : "");
        }
        case Action::Look:
            return fmt::format("lay bare {} {} and look at it.", advice.target.kind, advice.target.part);
        case Action::Repair:
            return fmt::format("repair {} {}.", advice.target.kind, advice.target.part);
        case Action::Verify:
            return "prove the repair.";
        case Action::Isolated:
            return "readings go no further.";
        case Action::LookElsewhere:
            return "nothing is wrong here; look at supply and ground.";
        case Action::Refit:
            return "put everything back.";
        case Action::Close:
            return "close the job.";
        case Action::Closed:
            return "the job is closed.";
    }
    return "";
}

std::string as_sentence(std::string words) {
    if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
        words.front() = static_cast<char>(words.front() - 'a' + 'A');
    return words;
}

}  // namespace

std::string spoken(const Recommendation& advice) {
    std::vector<std::string> sentences;
    for (const advice::Preparation& first : advice.prepare)
        sentences.push_back(as_sentence(spoken_preparation(first)) + ".");
    const std::string way = spoken_way(advice.travel_to, advice.covers);
    if (!way.empty()) sentences.push_back(as_sentence(way) + ".");
    sentences.push_back(as_sentence(spoken_act(advice)));
    if (is_hunting(advice)) sentences.push_back(as_sentence(spoken_minutes(advice.minutes_now)) + ".");
    return "Next: " + join(sentences, " ");
}

}  // namespace halfsplit::report
