// The JSON Schemas that docs/schema/ publishes, compiled in, and validation against them.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

// Text of docs/schema/NAME.schema.json; empty when there is none of that name.
std::string_view schema_text(std::string_view name);

struct SchemaViolation {
    std::string pointer;  // JSON pointer to the offending value
    std::string message;
};

// Every violation, outermost last removed: only the innermost value of a chain of failures is reported.
std::vector<SchemaViolation> validate(const nlohmann::json& document, std::string_view schema_name);

}  // namespace halfsplit
