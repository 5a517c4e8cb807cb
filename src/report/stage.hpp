// Where a job stands, in one word of its data.
#pragma once

#include "halfsplit/advice/survey.hpp"

#include <string>

namespace halfsplit::report {

std::string stage_word(advice::Left::Stage stage);

}  // namespace halfsplit::report
