// What the minutes of a job went into.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/advice/review.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/event.hpp"
#include "halfsplit/job/state.hpp"

#include <map>
#include <vector>

namespace halfsplit::advice {

// A record's own work, and the walk and the covers on the way to it by the harness's figures.
struct WorkPlan {
    Work own = Work::Other;
    double travel = 0, opening = 0;  // minutes
};

// `before`: the state the record was entered in.
WorkPlan work_plan(const harness::Harness& harness, harness::Index network, const access::Costs& costs,
                   const job::Event& event, const job::State& before);

// `minutes` by kind: the walk first, then the covers, each as far as the minutes go, and the rest is the
// record's own work. Where the minutes do not suffice, walk and covers share them in proportion.
std::vector<Spent> split(const WorkPlan& plan, double minutes);

// Sets the work of every step and the sums. What the clock ran up to an advice belongs to the step after it.
void bill(const std::vector<job::Record>& records, const std::map<job::Sequence, WorkPlan>& plans,
          Review& review);

}  // namespace halfsplit::advice
