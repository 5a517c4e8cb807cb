#include "advice/hindsight/moments.hpp"

#include "halfsplit/advice/evidence.hpp"

#include "advice/hindsight/outlook.hpp"

namespace halfsplit::advice {

namespace {

bool may_change_belief(const job::Event& event) {
    const job::Body& body = event.body;
    return !(std::holds_alternative<job::SafeState>(body) || std::holds_alternative<job::CoverChange>(body) ||
             std::holds_alternative<job::Remark>(body) || std::holds_alternative<job::Paused>(body) ||
             std::holds_alternative<job::Resumed>(body) || std::holds_alternative<job::Closed>(body) ||
             std::holds_alternative<job::Recommended>(body));
}

}  // namespace

Moment Moments::after(const job::Record& record, const Moment& before) {
    records_.push_back(record);
    Moment now;
    now.state = job::replay(records_);
    now.inferred = records_.size() == 1 || may_change_belief(record.event);
    if (!now.inferred) {
        now.evidence = before.evidence;
        now.belief = before.belief;
        now.whereabouts = before.whereabouts;
        return now;
    }
    now.evidence = evidence(predictor_.harness(), predictor_.network(), now.state);
    now.belief = infer(predictor_, now.evidence);
    now.whereabouts = whereabouts(predictor_.harness(), now.belief);
    return now;
}

}  // namespace halfsplit::advice
