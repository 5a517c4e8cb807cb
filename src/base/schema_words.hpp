// Why a document does not satisfy its schema, in words taken from the schema itself.
#pragma once

#include "halfsplit/base/schema.hpp"

#include <nlohmann/json_fwd.hpp>

#include <vector>

namespace halfsplit {

// What is wrong with each value, in the order of the document; about a thousand mistakes at most. Knows the
// keywords that schema.hpp names, and is not what decides whether the document is valid.
std::vector<SchemaViolation> explain(const nlohmann::json& document, const nlohmann::json& schema);

}  // namespace halfsplit
