// From the records of a job to its review. Every belief is what could be known at the time: the records up to
// a step are replayed and the belief is inferred from them. Deterministic, and plans nothing.
#pragma once

#include "halfsplit/advice/review.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/event.hpp"
#include "halfsplit/job/log.hpp"

#include <vector>

namespace halfsplit::advice {

// What a job was opened on, out of its own first record.
struct Subject {
    harness::Harness harness;
    harness::Index network = harness::none;
};
// Throws InputError: job-unopened, job-network-unknown, or the findings of the harness text.
Subject subject_of(const std::vector<job::Record>& records);

// `records` as the log has them; names that the harness does not know are kept as they stand and told
// nothing. Cost: one replay for each record, one inference for each that may change what is suspected.
Review retrospect(const std::vector<job::Record>& records, const harness::Harness& harness,
                  harness::Index network);
// The same on the harness of the job's own first record. Throws what subject_of() does.
Review retrospect(const std::vector<job::Record>& records);
// With what is known of the file: Review::log is whole.
Review retrospect(const job::Contents& contents, const Subject& subject);

}  // namespace halfsplit::advice
