#include "advice/clip_moves.hpp"

#include <algorithm>
#include <utility>

namespace halfsplit::advice {

using diagnosis::Contact;
using diagnosis::Tips;

namespace {

bool follows(const std::vector<int>& outcome, const std::vector<int>& one, const std::vector<int>& other) {
    std::map<std::pair<int, int>, int> known;
    for (std::size_t i = 0; i < outcome.size(); ++i) {
        if (known.try_emplace({one[i], other[i]}, outcome[i]).first->second != outcome[i]) return false;
    }
    return true;
}

}  // namespace

ClipMoves::ClipMoves(const Posed& posed, const std::vector<std::vector<int>>& outcomes,
                     const harness::Harness& harness)
    : posed_(posed), outcomes_(outcomes), on_clip_(harness.points[posed.arrangements.front().clip].terminal) {
    for (std::size_t r = 0; r < posed.readings.size(); ++r) {
        const Arrangement& own = posed.arrangements[posed.readings[r].arrangement];
        if (own.step != ArrangingStep::None || own.power != electrics::Power::Off || own.scan) continue;
        const Tips& tips = posed.readings[r].tips;
        if (is_on_clip(tips.black) && !is_on_clip(tips.red)) from_clip_.emplace(tips.red.terminal, r);
    }
}

bool ClipMoves::needless(std::size_t reading) const {
    const PlannedReading& own = posed_.readings[reading];
    if (posed_.arrangements[own.arrangement].step != ArrangingStep::MoveClip) return false;
    std::vector<const std::vector<int>*> told;
    for (const Contact& tip : {own.tips.red, own.tips.black}) {
        if (is_on_clip(tip)) continue;
        const auto from_clip = from_clip_.find(tip.terminal);
        if (from_clip == from_clip_.end()) return false;
        told.push_back(&outcomes_[from_clip->second]);
    }
    return follows(outcomes_[reading], *told.front(), *told.back());
}

bool ClipMoves::is_on_clip(const Contact& tip) const {
    return tip.kind == Contact::Kind::Terminal &&
           std::find(on_clip_.begin(), on_clip_.end(), tip.terminal) != on_clip_.end();
}

}  // namespace halfsplit::advice
