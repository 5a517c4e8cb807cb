#include "halfsplit/advice/granted.hpp"

namespace halfsplit::advice {

namespace {

bool answers(const Recommendation& advice, const job::Body& answer) {
    if (advice.action == Action::Verify) return std::holds_alternative<job::Verified>(answer);
    if (advice.action == Action::Scan) return std::holds_alternative<job::Answers>(answer);
    const auto* reading = std::get_if<job::Reading>(&answer);
    return advice.action == Action::Read && reading != nullptr &&
           reading->outcome != job::Outcome::CouldNotReach && reading->red == advice.red.name &&
           reading->black == advice.black.name &&
           (reading->quantity == job::Quantity::Volt) == (advice.quantity == "volt");
}

job::Body done(const Preparation& first) {
    if (first.step == "clip") return job::ClipMoved{first.point};
    if (first.step == "wake") return job::SafeState{};
    if (first.step == "sleep") return job::SafeState{.ignition_off = true, .bus_asleep = true};
    return job::PlugChange{first.spot.part, first.step == "plug", false};
}

}  // namespace

std::vector<job::Body> granted(const Recommendation& advice, const job::Body& answer) {
    std::vector<job::Body> result;
    if (!answers(advice, answer)) return result;
    for (const Preparation& first : advice.prepare) {
        result.push_back(done(first));
    }
    return result;
}

}  // namespace halfsplit::advice
