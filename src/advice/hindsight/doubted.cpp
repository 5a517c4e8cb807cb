#include "advice/hindsight/doubted.hpp"

#include "advice/doubt.hpp"

#include <algorithm>

namespace halfsplit::advice {

namespace {

const Doubt* about(const std::vector<Doubt>& doubts, job::Sequence sequence) {
    const auto found = std::find_if(doubts.begin(), doubts.end(),
                                    [sequence](const Doubt& doubt) { return doubt.sequence == sequence; });
    return found == doubts.end() ? nullptr : &*found;
}

bool any_doubted(const diagnosis::Belief& belief) {
    return std::any_of(belief.surprise.begin(), belief.surprise.end(),
                       [](double surprise) { return surprise > contradicts; });
}

}  // namespace

std::vector<Doubt> Doubted::doubts_now(const diagnosis::Evidence& evidence, const diagnosis::Belief& belief,
                                       const access::Standing& standing) {
    return doubts(predictor_.harness(), evidence, belief, costs_, standing, predictor_);
}

void Doubted::take(job::Sequence after, const diagnosis::Evidence& evidence, const diagnosis::Belief& belief,
                   const access::Standing& standing) {
    if (!any_doubted(belief)) return;
    for (const Doubt& doubt : doubts_now(evidence, belief, standing)) {
        const auto known =
            std::find_if(contradictions_.begin(), contradictions_.end(),
                         [&](const Contradiction& other) { return other.doubt.sequence == doubt.sequence; });
        if (known == contradictions_.end()) {
            contradictions_.push_back(
                {.doubt = doubt, .since = after, .chance_at_most = doubt.chance_of_slip});
        } else {
            known->chance_at_most = std::max(known->chance_at_most, doubt.chance_of_slip);
        }
    }
}

std::vector<Contradiction> Doubted::at_the_end(const diagnosis::Evidence& evidence,
                                               const diagnosis::Belief& belief,
                                               const access::Standing& standing) {
    std::vector<Doubt> still;
    if (any_doubted(belief)) still = doubts_now(evidence, belief, standing);
    for (Contradiction& contradiction : contradictions_) {
        const job::Sequence sequence = contradiction.doubt.sequence;
        for (std::size_t i = 0; i < evidence.measured.size(); ++i) {
            if (evidence.measured[i].sequence != sequence) continue;
            contradiction.at_end = belief.surprise[i];
            contradiction.reread_by = reread_of(evidence.measured[i], evidence, belief);
        }
        if (const Doubt* doubt = about(still, sequence)) contradiction.doubt = *doubt;
    }
    std::stable_sort(
        contradictions_.begin(), contradictions_.end(),
        [](const Contradiction& a, const Contradiction& b) { return a.doubt.sequence < b.doubt.sequence; });
    return std::move(contradictions_);
}

}  // namespace halfsplit::advice
