// Readings that did not fit, followed through the job: since when, how badly, and whether they fit in the
// end.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/advice/review.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"

#include <vector>

namespace halfsplit::advice {

class Doubted {
  public:
    // Keeps references to both.
    Doubted(const access::Costs& costs, diagnosis::Predictor& predictor)
        : costs_(costs), predictor_(predictor) {}

    // What was believed after a record; in order of record.
    void take(job::Sequence after, const diagnosis::Evidence& evidence, const diagnosis::Belief& belief,
              const access::Standing& standing);
    // Closes the book on what is believed at the end. In order of the readings.
    std::vector<Contradiction> at_the_end(const diagnosis::Evidence& evidence,
                                          const diagnosis::Belief& belief, const access::Standing& standing);

  private:
    std::vector<Doubt> doubts_now(const diagnosis::Evidence& evidence, const diagnosis::Belief& belief,
                                  const access::Standing& standing);

    const access::Costs& costs_;
    diagnosis::Predictor& predictor_;
    std::vector<Contradiction> contradictions_;
};

}  // namespace halfsplit::advice
