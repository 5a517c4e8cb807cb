// A finding as data: the members that every schema of findings has.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <nlohmann/json_fwd.hpp>

namespace halfsplit::report {

nlohmann::json finding_json(const Finding& finding);

}  // namespace halfsplit::report
