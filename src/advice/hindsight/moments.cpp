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

Moment Moments::after(const job::Record& record, const Moment& before, bool last) {
    records_.push_back(record);
    Moment now;
    now.state = job::replay(records_);
    const bool may_change = records_.size() == 1 || may_change_belief(record.event);
    now.inferred = (may_change && weighed_ < most_weighed) || (last && (may_change || behind_));
    now.left_out = behind_ || (may_change && !now.inferred);
    behind_ = now.left_out;
    if (!now.inferred) {
        now.believed = before.believed;
        return now;
    }
    ++weighed_;
    auto believed = std::make_shared<Believed>();
    believed->evidence = evidence(predictor_.harness(), predictor_.network(), now.state);
    believed->belief = infer(predictor_, believed->evidence);
    believed->whereabouts = whereabouts(predictor_.harness(), believed->belief);
    now.believed = std::move(believed);
    return now;
}

}  // namespace halfsplit::advice
