#include "obstacle.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace halfsplit::job {

namespace {

using electrics::Obstacle;
using harness::Harness;
using harness::Index;
using Kind = Obstacle::Kind;

constexpr std::size_t most_named = 3;

std::string named(const Harness& harness, const std::vector<Index>& parts) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < std::min(parts.size(), most_named); ++i) {
        const harness::Part& part = harness.parts[parts[i]];
        words.push_back(
            part.name.empty() || part.name == part.id ? part.id : fmt::format("{} ({})", part.id, part.name));
    }
    if (parts.size() > most_named) words.push_back(fmt::format("{} more", parts.size() - most_named));
    return join_words(words);
}

const char* are(const std::vector<Index>& parts) {
    return parts.size() == 1 ? "is" : "are";
}

std::string what_is_wrong(const Harness& harness, const Obstacle& obstacle, const std::string& ends) {
    const std::string parts = named(harness, obstacle.parts);
    switch (obstacle.kind) {
        case Kind::NotThere:
            return fmt::format("the stretch {} is not on this vehicle", ends);
        case Kind::NoWay:
            return fmt::format("as things stand no wire leads {}", ends);
        case Kind::Between:
            return fmt::format("{} {} still connected to the stretch {}, right on the way", parts,
                               are(obstacle.parts), ends);
        case Kind::Branched:
            return fmt::format("{} branches off between the ends", parts);
        case Kind::Connected:
            return fmt::format("{} {} still connected to the stretch {}", parts, are(obstacle.parts), ends);
        case Kind::GoesOn:
            return fmt::format("the pair goes on beyond the stretch {}", ends);
        case Kind::NoLength:
            return fmt::format("{} {} no length in the harness file", parts,
                               obstacle.parts.size() == 1 ? "has" : "have");
    }
    return "";
}

std::string what_to_do(const Harness& harness, const Obstacle& obstacle) {
    const std::vector<std::string> unplug = ids_of(harness, obstacle.unplug);
    switch (obstacle.kind) {
        case Kind::NotThere:
            return "Name two ends that are on the vehicle.";
        case Kind::NoWay:
            return "Name two ends between which nothing is unplugged.";
        case Kind::Between:
        case Kind::Branched:
            return "Measure on one side of it: name two ends with no module and no branch between them.";
        case Kind::Connected:
        case Kind::GoesOn:
            if (!unplug.empty())
                return fmt::format("Unplug {}, say so (unplugged {}), and measure again.", join_words(unplug),
                                   join(unplug, ", unplugged "));
            return "Take an end where the wire ends, or where a connector can be unplugged.";
        case Kind::NoLength:
            return "Write its length_m into the harness file, and open a job on that.";
    }
    return "";
}

}  // namespace

void refuse_obstacle(const Input& input, const Harness& harness, const Obstacle& obstacle, Index from,
                     Index to, const std::string& variant) {
    const std::string ends =
        fmt::format("from {} to {}", harness::point_name(harness, from), harness::point_name(harness, to));
    const std::string on = variant.empty() ? "" : fmt::format(", on a vehicle {}", variant);
    input.refuse_last({"event-not-possible", what_is_wrong(harness, obstacle, ends) + on,
                       "one way of runs, connectors, splices and bridge plugs, with nothing else on it", "",
                       what_to_do(harness, obstacle)});
}

}  // namespace halfsplit::job
