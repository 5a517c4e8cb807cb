// The drawing with the suspects after each step of a job.
#pragma once

#include "halfsplit/advice/review.hpp"
#include "halfsplit/harness/harness.hpp"

#include <string>

namespace halfsplit::report {

class Pictures {
  public:
    // Keeps references.
    Pictures(const advice::Review& review, const harness::Harness& harness, harness::Index network);

    // What every picture refers to: once on the page, before the first.
    std::string symbol() const;
    // After the step at that position of the review's steps; empty where there is nothing to show.
    std::string after(std::size_t step);
};

}  // namespace halfsplit::report
