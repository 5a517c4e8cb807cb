// Plots of a review as inline SVG. Lengths along the page are in per cent, so that a plot is as wide as what
// it stands in and its letters keep their size.
#pragma once

#include "halfsplit/advice/review.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::report {

// What was done from when to when, in minutes of the bill.
struct Stretch {
    advice::Work work = advice::Work::Other;
    double from = 0, to = 0;
};
// In order; neighbours of one kind are one. What no step was billed for comes last.
std::vector<Stretch> stretches(const advice::Review& review);

// The stretches of one kind as blocks along the whole of the job, with their times in words.
std::string work_row(const std::vector<Stretch>& all, advice::Work work, double total);
// The scale beneath such rows.
std::string minutes_axis(double total);

// A moment of the hunt: a record that may have changed what was suspected.
struct PlottedOutlook {
    job::Sequence sequence = 0;  // 0: before the first
    const advice::Outlook* outlook = nullptr;
};
std::vector<PlottedOutlook> outlooks(const advice::Review& review);

enum class Measure { Suspects, Bits };
// A bar for each moment. Of more than `most_bars` moments every so many is drawn, and the last.
inline constexpr std::size_t most_bars = 400;
std::string outlook_plot(const std::vector<PlottedOutlook>& all, Measure measure);

}  // namespace halfsplit::report
