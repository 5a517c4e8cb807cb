#include "halfsplit/base/schema.hpp"

#include "halfsplit/base/json_text.hpp"

#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "base/schema_words.hpp"

#include <map>
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

// Flagged values by pointer, with valijson's own words for the first mistake there.
std::map<std::string, std::string> flagged(const json& document, const json& schema) {
    json compiled = schema;
    drop_patterns(compiled);
    valijson::Schema rules;
    valijson::SchemaParser(valijson::SchemaParser::kDraft7).populateSchema(Adapter(compiled), rules);
    valijson::Validator validator(valijson::Validator::kStrongTypes);
    std::map<std::string, std::string> mistakes;
    if (validator.validate(rules, Adapter(document), nullptr)) return mistakes;
    valijson::ValidationResults results;
    validator.validate(rules, Adapter(document), &results);
    for (const auto& error : results) mistakes.emplace(pointer_of(error.context), error.description);
    return mistakes;
}

// Whether the entry after `it` lies below it: the map is in order, so it would come next, but for names such
// as "a-b" that sort between "a" and "a/b".
bool has_flagged_below(const std::map<std::string, std::string>& mistakes, const std::string& pointer) {
    const auto next = mistakes.lower_bound(pointer + '/');
    return next != mistakes.end() && next->first.compare(0, pointer.size() + 1, pointer + '/') == 0;
}

}  // namespace

std::vector<SchemaViolation> validate_against(const json& schema, const json& document) {
    const auto mistakes = flagged(document, schema);
    std::vector<SchemaViolation> violations;
    for (const auto& [pointer, description] : mistakes) {
        std::vector<SchemaViolation> here = explain(document, schema, pointer);
        if (here.empty() && !has_flagged_below(mistakes, pointer)) {
            here.push_back({"schema-mismatch", pointer, description, "", ""});
        }
        for (SchemaViolation& violation : here) violations.push_back(std::move(violation));
    }
    return violations;
}

std::vector<SchemaViolation> validate(const json& document, std::string_view schema_name) {
    const std::string_view text = schema_text(schema_name);
    if (text.empty()) throw std::invalid_argument("no schema is named \"" + std::string(schema_name) + "\"");
    return validate_against(json::parse(text), document);
}

}  // namespace halfsplit
