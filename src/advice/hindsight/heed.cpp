#include "advice/hindsight/heed.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/advice/recommendation_json.hpp"

#include <fmt/format.h>

#include "advice/hindsight/site.hpp"
#include "advice/preparation.hpp"
#include "advice/standing.hpp"

#include <algorithm>
#include <stdexcept>

namespace halfsplit::advice {

using harness::Index;

namespace {

std::string reading_words(const std::string& red, const std::string& black) {
    return fmt::format("{} to {}", red, black);
}

std::string done_words(const job::Event& event) {
    if (const auto* reading = std::get_if<job::Reading>(&event.body))
        return reading_words(reading->red, reading->black);
    return "look at " + std::get<job::Seen>(event.body).part;
}

bool in_quantity(const job::Reading& reading, const std::string& quantity) {
    return (reading.quantity == job::Quantity::Volt) == (quantity == "volt");
}

bool follows(const job::Event& event, const Recommendation& advice) {
    if (const auto* reading = std::get_if<job::Reading>(&event.body)) {
        return advice.action == Action::Read && in_quantity(*reading, advice.quantity) &&
               same_tips(*reading, advice.red.name, advice.black.name);
    }
    const auto* seen = std::get_if<job::Seen>(&event.body);
    return seen != nullptr && advice.action == Action::Look && seen->part == advice.target.name;
}

const Alternative* listed(const Recommendation& advice, const job::Event& event) {
    for (const Alternative& other : advice.alternatives) {
        const auto* reading = std::get_if<job::Reading>(&event.body);
        const auto* seen = std::get_if<job::Seen>(&event.body);
        if (reading != nullptr && other.action == Action::Read && in_quantity(*reading, other.quantity) &&
            same_tips(*reading, other.red, other.black))
            return &other;
        if (seen != nullptr && other.action == Action::Look && seen->part == other.part) return &other;
    }
    return nullptr;
}

// Has anything been entered since that an advice could have asked for?
bool answered_since(const job::State& state, job::Sequence advice) {
    const auto later = [advice](const auto& entry) { return entry.sequence > advice; };
    return std::any_of(state.readings.begin(), state.readings.end(), later) ||
           std::any_of(state.distances.begin(), state.distances.end(), later) ||
           std::any_of(state.seen.begin(), state.seen.end(), later) ||
           std::any_of(state.scans.begin(), state.scans.end(), later) ||
           std::any_of(state.repairs.begin(), state.repairs.end(), later) ||
           state.verified_at.value_or(0) > advice;
}

}  // namespace

bool same_tips(const job::Reading& reading, const std::string& red, const std::string& black) {
    return (reading.red == red && reading.black == black) || (reading.red == black && reading.black == red);
}

std::string first_words(const Recommendation& advice) {
    std::string text;
    for (const Preparation& first : advice.prepare) text += in_words(first) + ", then ";
    return text;
}

std::string step_words(const Recommendation& advice) {
    switch (advice.action) {
        case Action::Read:
            return first_words(advice) + reading_words(advice.red.name, advice.black.name);
        case Action::Scan:
            return first_words(advice) + "ask who answers";
        case Action::Look:
            return "look at " + advice.target.name;
        case Action::Repair:
            return "repair " + advice.target.name;
        default:
            return std::string(word(advice.action));
    }
}

AdviceBook::AdviceBook(const harness::Harness& harness, Index network, const access::Costs& costs)
    : harness_(harness), network_(network), costs_(costs) {}

bool AdviceBook::add(job::Sequence sequence, const job::Recommended& logged, const job::State& state) {
    try {
        given_.push_back({sequence, from_text(logged.json), standing_of(harness_, network_, costs_, state),
                          clip_point(harness_, network_, state), state.minutes_spent});
        return true;
    } catch (const std::invalid_argument&) {
        return false;
    }
}

std::optional<AdviceBook::First> AdviceBook::first(const job::State& final_state) const {
    for (const Given& given : given_) {
        if (!is_hunting(given.advice) || final_state.undone.count(given.sequence) > 0) continue;
        return First{given.sequence, given.advice.quote.expected_minutes, given.advice.quote.worst_minutes,
                     given.minutes_spent};
    }
    return std::nullopt;
}

const AdviceBook::Given* AdviceBook::standing_advice(const job::State& state) const {
    const auto newest = std::find_if(given_.rbegin(), given_.rend(), [&](const Given& given) {
        return state.undone.count(given.sequence) == 0;
    });
    if (newest == given_.rend() || answered_since(state, newest->sequence)) return nullptr;
    return &*newest;
}

std::string AdviceBook::pending(const job::State& state) const {
    const Given* given = standing_advice(state);
    return given == nullptr || state.closed ? "" : step_words(given->advice);
}

std::optional<Detour> AdviceBook::judge(ReviewStep& step, const job::State& before) const {
    const Given* given = standing_advice(before);
    if (given == nullptr) return std::nullopt;
    step.advice = given->sequence;
    step.advised = step_words(given->advice);
    if (follows(step.event, given->advice)) {
        step.heed = Heed::Followed;
        return std::nullopt;
    }
    step.heed = is_hunting(given->advice) ? Heed::Detour : Heed::OtherStep;
    if (step.heed != Heed::Detour) return std::nullopt;
    Detour detour{.sequence = step.sequence,
                  .advice = given->sequence,
                  .advised = step.advised,
                  .done = done_words(step.event),
                  .counts = step.counts};
    set_cost(detour, *given, step.event);
    return detour;
}

void AdviceBook::set_cost(Detour& detour, const Given& given, const job::Event& done) const {
    if (const Alternative* other = listed(given.advice, done)) {
        detour.basis = Detour::Basis::Alternative;
        detour.more_minutes = other->more_minutes;
    } else if (const auto site = site_of(harness_, costs_, done, given.clip)) {
        detour.basis = Detour::Basis::Labour;
        detour.more_minutes = costs_.workshop().reach(*site, given.standing.place, given.standing.off) -
                              given.advice.minutes_now;
    }
}

}  // namespace halfsplit::advice
