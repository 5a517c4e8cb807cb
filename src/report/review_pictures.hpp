// The drawing with the suspects after each step of a job. What is suspected comes from the review, what is
// unplugged from the state of the step that follows.
#pragma once

#include "halfsplit/advice/review.hpp"
#include "halfsplit/drawing/drawing.hpp"
#include "halfsplit/harness/harness.hpp"

#include <string>
#include <vector>

namespace halfsplit::report {

class Pictures {
  public:
    // Keeps references.
    Pictures(const advice::Review& review, const harness::Harness& harness, harness::Index network);

    // What every picture refers to: once on the page, before the first.
    std::string symbol() const;
    // After the step at that position of the review's steps, asked for in order; empty where there is nothing
    // new to show.
    std::string after(std::size_t step);

  private:
    void take(const advice::ReviewStep& step);
    void take(const advice::Outlook& outlook);
    const std::vector<std::string>& apart_after(std::size_t step);

    const advice::Review& review_;
    drawing::Drawing drawing_;
    drawing::Marks marks_;
    std::vector<std::string> apart_at_end_;
    std::size_t taken_ = 0;  // steps
};

}  // namespace halfsplit::report
