#include "support/reviews.hpp"

#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/advice/retrospect.hpp"

#include "support/small_chain.hpp"

#include <stdexcept>

namespace halfsplit::test {

advice::Review review_of(const std::vector<job::Record>& records) {
    return advice::retrospect(records);
}

advice::Review review_of(JobWriter& job) {
    return advice::retrospect(job.saved());
}

const advice::ReviewStep& step(const advice::Review& review, job::Sequence sequence) {
    for (const advice::ReviewStep& each : review.steps) {
        if (each.sequence == sequence) return each;
    }
    throw std::out_of_range("no step has that record");
}

const advice::Detour* detour(const advice::Review& review, job::Sequence sequence) {
    for (const advice::Detour& each : review.detours) {
        if (each.sequence == sequence) return &each;
    }
    return nullptr;
}

const advice::Contradiction* contradiction(const advice::Review& review, job::Sequence sequence) {
    for (const advice::Contradiction& each : review.contradictions) {
        if (each.doubt.sequence == sequence) return &each;
    }
    return nullptr;
}

diagnosis::Belief belief_after(const std::vector<job::Record>& records, job::Sequence sequence) {
    advice::Advisor advisor(small_chain(), 0);
    return advisor.believe(
        job::replay({records.begin(), records.begin() + static_cast<std::ptrdiff_t>(sequence)}));
}

}  // namespace halfsplit::test
