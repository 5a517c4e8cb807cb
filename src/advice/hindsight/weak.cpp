#include "advice/hindsight/weak.hpp"

#include "halfsplit/job/words.hpp"

#include "advice/hindsight/heed.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>

namespace halfsplit::advice {

std::string_view word(Weakness weakness) {
    constexpr std::array<std::string_view, 3> words{"open", "beep", "doubtful"};
    return words[static_cast<std::size_t>(weakness)];
}

namespace {

bool shows_open(const job::Reading& reading) {
    return reading.quantity == job::Quantity::Ohm &&
           (reading.outcome == job::Outcome::Open ||
            (reading.outcome == job::Outcome::Value && std::isinf(reading.value)));
}

// Was an open read a second time, between the same tips in the same state?
bool confirmed(const job::TakenReading& taken, const job::State& end) {
    return std::any_of(end.readings.begin(), end.readings.end(), [&](const job::TakenReading& other) {
        return other.sequence != taken.sequence && shows_open(other.reading) && other.state == taken.state &&
               same_tips(other.reading, taken.reading.red, taken.reading.black);
    });
}

std::optional<Weakness> weakness_of(const job::TakenReading& taken, double chance_of_slip,
                                    const job::State& end) {
    if (taken.reading.outcome == job::Outcome::Closed) return Weakness::Beep;
    if (shows_open(taken.reading) && !confirmed(taken, end)) return Weakness::Open;
    if (chance_of_slip >= doubtful) return Weakness::Doubtful;
    return std::nullopt;
}

std::map<job::Sequence, double> moved_by(const std::vector<ReviewStep>& steps) {
    std::map<job::Sequence, double> moved;
    for (const ReviewStep& step : steps) {
        if (step.told) moved[step.sequence] = step.told->moved;
    }
    return moved;
}

}  // namespace

std::vector<WeakEvidence> weak_evidence(const harness::Harness& harness, const job::State& end,
                                        const diagnosis::Evidence& evidence, const diagnosis::Belief& belief,
                                        const std::vector<ReviewStep>& steps) {
    const auto moved = moved_by(steps);
    std::map<job::Sequence, double> slip;
    for (std::size_t i = 0; i < evidence.measured.size(); ++i)
        slip[evidence.measured[i].sequence] = belief.surprise[i];
    std::vector<WeakEvidence> weak;
    for (const job::TakenReading& taken : end.readings) {
        const auto chance = slip.find(taken.sequence);
        const auto move = moved.find(taken.sequence);
        if (chance == slip.end() || move == moved.end()) continue;
        if (move->second < relied_on || chance->second > contradicts) continue;
        const auto weakness = weakness_of(taken, chance->second, end);
        if (!weakness) continue;
        weak.push_back({taken.sequence, job::in_words({taken.reading, {}}, harness), *weakness, move->second,
                        chance->second});
    }
    return weak;
}

}  // namespace halfsplit::advice
