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
    now.believed = before.believed;
    now.left_out = behind_;
    const bool may_change = records_.size() == 1 || may_change_belief(record.event);
    // Who has fallen behind catches up at the end.
    const bool due = last ? may_change || behind_ : may_change && !behind_;
    if (!due) return now;
    auto evidence = advice::evidence(predictor_.harness(), predictor_.network(), now.state);
    const bool changed = records_.size() == 1 || evidence != before.believed->evidence;
    const bool weighs = changed && (weighed_ < most_weighed || last);
    behind_ = behind_ || (changed && !weighs);
    now.left_out = behind_;
    now.inferred = weighs || !changed;
    if (weighs) now.believed = weigh(std::move(evidence));
    return now;
}

std::shared_ptr<const Believed> Moments::weigh(diagnosis::Evidence evidence) {
    ++weighed_;
    auto believed = std::make_shared<Believed>();
    believed->evidence = std::move(evidence);
    believed->belief = infer(predictor_, believed->evidence);
    believed->whereabouts = whereabouts(predictor_.harness(), believed->belief);
    return believed;
}

}  // namespace halfsplit::advice
