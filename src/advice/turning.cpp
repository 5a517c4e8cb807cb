#include "advice/turning.hpp"

#include "halfsplit/harness/harness.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace halfsplit::advice {

namespace {

constexpr std::size_t most_turning_points = 3;

// Chance, and chance times the minutes that the other step takes more.
struct Tally {
    double chance = 0, more = 0;
};

}  // namespace

std::vector<TurningPoint> turning_points(const harness::Harness& harness, const Posed& posed,
                                         const plan::Option& best, const plan::Option& other) {
    std::vector<TurningPoint> result;
    if (best.minutes.empty() || other.minutes.empty()) return result;
    std::map<harness::Index, Tally> by_part;
    Tally whole;
    for (std::size_t h = 0; h < best.minutes.size(); ++h) {
        if (best.minutes[h] < 0 || other.minutes[h] < 0) continue;
        const plan::Hypothesis& hypothesis = posed.problem.hypotheses[h];
        const double more = hypothesis.probability * (other.minutes[h] - best.minutes[h]);
        Tally& own = by_part[posed.part_of_element[hypothesis.element]];
        own.chance += hypothesis.probability;
        own.more += more;
        whole.chance += hypothesis.probability;
        whole.more += more;
    }
    if (whole.more <= 0) return result;
    for (const auto& [part, own] : by_part) {
        if (part == harness::none || own.chance <= 0 || own.chance >= whole.chance) continue;
        const double here = own.more / own.chance;
        const double elsewhere = (whole.more - own.more) / (whole.chance - own.chance);
        if (here * elsewhere >= 0) continue;
        result.push_back({harness.parts[part].id, harness.parts[part].name, own.chance / whole.chance,
                          elsewhere / (elsewhere - here), ""});
    }
    std::stable_sort(result.begin(), result.end(), [](const TurningPoint& a, const TurningPoint& b) {
        return std::abs(a.at - a.now) < std::abs(b.at - b.now);
    });
    result.resize(std::min(result.size(), most_turning_points));
    return result;
}

}  // namespace halfsplit::advice
