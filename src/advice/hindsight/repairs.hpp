// The repairs of a job: what each was for, what proved the fault, what proved the repair.
#pragma once

#include "halfsplit/advice/review.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/state.hpp"

#include "job/resolve.hpp"

#include <map>
#include <vector>

namespace halfsplit::advice {

// What was believed of a part just before it was repaired.
struct BeforeRepair {
    std::string fault, fault_in_words;
    double fault_chance = 0, part_chance = 0;
};
BeforeRepair before_repair(const harness::Harness& harness, const diagnosis::Belief& belief,
                           const std::string& part);

struct RepairsInput {
    const harness::Harness& harness;
    harness::Index network;
    const std::vector<job::Resolved>& resolved;
    const job::State& state;          // at the end
    const diagnosis::Belief& belief;  // at the end
    const std::map<job::Sequence, BeforeRepair>& before;
};

// Those that count, in order.
std::vector<ReviewedRepair> reviewed_repairs(const RepairsInput& input);

// Parts whose last look said "faulty", and no repair has followed, by id.
std::vector<std::string> faulty_not_repaired(const job::State& state);

}  // namespace halfsplit::advice
