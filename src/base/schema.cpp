#include "halfsplit/base/schema.hpp"

#include "halfsplit/base/json_text.hpp"

#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "base/compiled_schema.hpp"
#include "base/schema_words.hpp"

#include <stdexcept>
#include <utility>

namespace halfsplit {

namespace {

using nlohmann::json;
using Adapter = valijson::adapters::NlohmannJsonAdapter;

// Every `pattern` taken out: see the header. A schema is our own text, so its depth is small.
void drop_patterns(json& schema) {
    if (schema.is_object() && schema.contains("pattern") && schema["pattern"].is_string())
        schema.erase("pattern");
    if (!schema.is_structured()) return;
    for (json& below : schema) drop_patterns(below);
}

// "<root>", "[modules]", "[3]" to "/modules/3".
std::string pointer_of(const std::vector<std::string>& context) {
    std::string pointer;
    for (std::size_t i = 1; i < context.size(); ++i) {
        pointer += '/' + pointer_token(std::string_view(context[i]).substr(1, context[i].size() - 2));
    }
    return pointer;
}

}  // namespace

std::vector<SchemaViolation> validate_against(const json& schema, const json& document) {
    json compiled = schema;
    drop_patterns(compiled);
    valijson::Schema rules;
    valijson::SchemaParser(valijson::SchemaParser::kDraft7).populateSchema(Adapter(compiled), rules);
    valijson::Validator validator(valijson::Validator::kStrongTypes);
    if (validator.validate(rules, Adapter(document), nullptr)) return {};
    std::vector<SchemaViolation> violations = explain(document, schema);
    if (!violations.empty()) return violations;
    SchemaViolation other;  // a keyword that explain() does not know: valijson's own words, innermost first
    other.id = "schema-mismatch";
    other.message = "the schema refuses this";
    valijson::ValidationResults results;
    validator.validate(rules, Adapter(document), &results);
    if (results.numErrors() > 0) {
        other.pointer = pointer_of(results.begin()->context);
        other.message = results.begin()->description;
    }
    return {other};
}

std::vector<SchemaViolation> validate(const json& document, std::string_view schema_name) {
    const std::string_view text = schema_text(schema_name);
    if (text.empty()) throw std::invalid_argument("no schema is named \"" + std::string(schema_name) + "\"");
    if (compiled_schema(schema_name).surely_accepts(document)) return {};
    return validate_against(json::parse(text), document);
}

}  // namespace halfsplit
