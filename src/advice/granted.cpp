#include "halfsplit/advice/granted.hpp"

namespace halfsplit::advice {

namespace {

bool answers(const Recommendation& advice, const job::Body& answer) {
    if (advice.action == Action::Verify) return std::holds_alternative<job::Verified>(answer);
    const auto* reading = std::get_if<job::Reading>(&answer);
    return advice.action == Action::Read && reading != nullptr &&
           reading->outcome != job::Outcome::CouldNotReach && reading->red == advice.red.name &&
           reading->black == advice.black.name;
}

}  // namespace

std::vector<job::Body> granted(const Recommendation& advice, const job::Body& answer) {
    std::vector<job::Body> result;
    if (!answers(advice, answer)) return result;
    for (const Preparation& first : advice.prepare) {
        if (first.step == "clip") {
            result.emplace_back(job::ClipMoved{first.point});
        } else {
            result.emplace_back(job::PlugChange{first.spot.part, first.step == "plug", false});
        }
    }
    return result;
}

}  // namespace halfsplit::advice
