// What a lead reads first, piece by piece: the same words on the screen and on the page.
#pragma once

#include "halfsplit/advice/review.hpp"

#include <string>

namespace halfsplit::report {

std::string vehicle_words(const advice::Review& review);
std::string complaint_words(const advice::Review& review);
std::string before_words(const advice::Review& review);  // recent work, what was replaced; may be empty
std::string cause_words(const advice::Review& review);
std::string correction_words(const advice::Review& review);
std::string hunt_words(const advice::Review& review);  // the minutes expected and spent; empty: no advice
std::string minutes_words(const advice::Review& review);
std::string status_words(const advice::Review& review);
std::string job_words(const advice::Review& review);  // from when to when, on which harness file

}  // namespace halfsplit::report
