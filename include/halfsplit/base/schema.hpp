// The JSON Schemas that docs/schema/ publishes, compiled in, and validation against them.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

// Text of docs/schema/NAME.schema.json; empty when there is none of that name.
std::string_view schema_text(std::string_view name);

// `id` is one of unknown-member, missing-member, wrong-type, not-a-choice, out-of-range, schema-mismatch.
struct SchemaViolation {
    std::string id;
    std::string pointer;  // JSON pointer to the value; for a missing member, to the object that lacks it
    std::string message;
    std::string expected;  // from the type and the description in the schema; may be empty
    std::string nearest;   // nearest member or choice; may be empty
    std::string mend;      // JSON text that may safely stand in its place; may be empty
};

// What is wrong with the document, at the innermost values that are wrong, in the order of the document;
// about a thousand violations at most. Whether it is valid is valijson's judgement,
// but for documents that are plainly right (src/base/compiled_schema.hpp); how it is said comes from
// the schema's own types and descriptions. `pattern` is published for other tools and not checked here: the
// standard regex recurses on the length of its input. Throws std::invalid_argument for a schema that is not
// there.
std::vector<SchemaViolation> validate(const nlohmann::json& document, std::string_view schema_name);

// The same against any schema (draft 7; of the keywords, those that validate() can explain: type, properties,
// additionalProperties, required, items, enum, const, anyOf, $ref into definitions, and the bounds of
// numbers, strings and arrays).
std::vector<SchemaViolation> validate_against(const nlohmann::json& schema, const nlohmann::json& document);

}  // namespace halfsplit
