// Jobs on one pair of hands, some only after others: in which order is the weighted sum of their finishing
// times least?
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

namespace halfsplit::plan {

struct Job {
    static constexpr std::size_t no_job = std::numeric_limits<std::size_t>::max();
    double weight = 0, minutes = 0;
    std::size_t after = no_job;  // the one job that must be done before this one
};

struct JobOrder {
    std::vector<std::size_t> jobs;
    double sum = 0;  // of weight times finishing time
};

// The best order where each job waits for at most one other (no cycles): Horn 1972, "Single-machine job
// sequencing with treelike precedence ordering and linear delay penalties". O(n^2).
JobOrder best_tree_order(const std::vector<Job>& jobs);

}  // namespace halfsplit::plan
