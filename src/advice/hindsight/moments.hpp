// A job lived through again, a record at a time: the state after each and what could be believed then.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/state.hpp"

#include <cstddef>
#include <memory>
#include <vector>

namespace halfsplit::advice {

struct Believed {
    diagnosis::Evidence evidence;
    diagnosis::Belief belief;
    std::vector<double> whereabouts;  // see outlook.hpp
};

struct Moment {
    job::State state;
    std::shared_ptr<const Believed> believed = std::make_shared<Believed>();
    bool inferred = false;  // the record may have changed what is believed
    bool left_out = false;  // it, or one before it, may have and was not weighed by itself
};

// Each takes as long as all readings before it together: of a longer job only the first are weighed one by
// one, and what is believed at the end.
inline constexpr std::size_t most_weighed = 250;

class Moments {
  public:
    // Keeps a reference to the predictor.
    explicit Moments(diagnosis::Predictor& predictor) : predictor_(predictor) {}

    // The moment after the next record. What was believed carries over where nothing can have changed it.
    // `last`: it is the end of the job, and weighed in any case.
    Moment after(const job::Record& record, const Moment& before, bool last);

  private:
    std::shared_ptr<const Believed> weigh(diagnosis::Evidence evidence);

    diagnosis::Predictor& predictor_;
    std::vector<job::Record> records_;  // so far
    std::size_t weighed_ = 0;
    bool behind_ = false;  // something was left out
};

}  // namespace halfsplit::advice
