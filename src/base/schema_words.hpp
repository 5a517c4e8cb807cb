// Why one value does not satisfy its schema, in words taken from the schema itself.
#pragma once

#include "halfsplit/base/schema.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <vector>

namespace halfsplit {

// What is wrong with the value at `pointer` itself, not with anything below it. Empty when nothing is.
std::vector<SchemaViolation> explain(const nlohmann::json& document, const nlohmann::json& schema,
                                     const std::string& pointer);

}  // namespace halfsplit
