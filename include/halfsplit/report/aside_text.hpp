// What is asked at a prompt and answered in place, without changing anything: why, what else, what if, where.
// Pure: the same data gives the same text. Lines of at most `screen.columns`, each with its line end.
#pragma once

#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/report/step_text.hpp"

#include <string>

namespace halfsplit::report {

// What the step costs, what each of its outcomes leaves, how much it tells, and at which chance of a part
// another step would be the better one.
std::string why_text(const advice::Recommendation& advice, const Screen& screen);

// The next best steps, and how to take one of them instead.
std::string others_text(const advice::Recommendation& advice, const Screen& screen);

// What would be left after an answer, and what would be next. `answer`: as it was typed.
std::string supposed_text(const std::string& answer, const advice::Recommendation& after,
                          const Screen& screen);

// Where a part is: its place, what has to come off there and what is off already, its neighbours on the bus.
std::string where_text(const harness::Harness& harness, harness::Index part, const job::State& state,
                       const Screen& screen);

}  // namespace halfsplit::report
