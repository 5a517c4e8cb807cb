// Files of this program that are no harness.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "base/collector.hpp"

namespace halfsplit::harness {

// Whether the document is of another format of ours; if so, says it (other-format).
bool is_of_other_format(const nlohmann::json& document, Collector& findings);

}  // namespace halfsplit::harness
