// Finding one's way in a review.
#pragma once

#include "halfsplit/advice/review.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/job/event.hpp"

#include "support/sample_jobs.hpp"

#include <vector>

namespace halfsplit::test {

advice::Review review_of(const std::vector<job::Record>& records);
advice::Review review_of(JobWriter& job);

// Throws std::out_of_range when that record is no step.
const advice::ReviewStep& step(const advice::Review& review, job::Sequence sequence);
// Null when there is none of that record.
const advice::Detour* detour(const advice::Review& review, job::Sequence sequence);
const advice::Contradiction* contradiction(const advice::Review& review, job::Sequence sequence);

// What the adviser believes after that record of a job on the small chain.
diagnosis::Belief belief_after(const std::vector<job::Record>& records, job::Sequence sequence);

}  // namespace halfsplit::test
