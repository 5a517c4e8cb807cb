// A job lived through again, a record at a time: the state after each and what could be believed then.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/state.hpp"

#include <vector>

namespace halfsplit::advice {

struct Moment {
    job::State state;
    diagnosis::Evidence evidence;
    diagnosis::Belief belief;
    std::vector<double> whereabouts;  // see outlook.hpp
    bool inferred = false;            // the record may have changed the belief
};

class Moments {
  public:
    // Keeps a reference to the predictor.
    explicit Moments(diagnosis::Predictor& predictor) : predictor_(predictor) {}

    // The moment after the next record. What was believed carries over where nothing can have changed it.
    Moment after(const job::Record& record, const Moment& before);

  private:
    diagnosis::Predictor& predictor_;
    std::vector<job::Record> records_;  // so far
};

}  // namespace halfsplit::advice
