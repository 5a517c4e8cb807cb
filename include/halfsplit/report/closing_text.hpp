// How a job ended, for the last screen of the conversation. Pure.
#pragma once

#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/state.hpp"

#include <cstddef>
#include <string>

namespace halfsplit::report {

std::string closing_text(const job::State& state, const harness::Harness& harness, std::size_t columns);

}  // namespace halfsplit::report
