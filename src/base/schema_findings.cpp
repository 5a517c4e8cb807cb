#include "base/schema_findings.hpp"

#include "halfsplit/base/schema.hpp"

#include <utility>

namespace halfsplit {

namespace {

std::string what_to_do(const SchemaViolation& violation, const std::string& page) {
    if (violation.id == "unknown-member")
        return violation.nearest.empty() ? "delete it; remarks belong into \"note\"" : "correct the name";
    if (violation.id == "missing-member") return "add it; " + page + " shows where";
    if (violation.id == "not-a-choice") return "write one of the choices, in quotes where they have them";
    if (violation.id == "wrong-type") return "write it as expected; numbers stand without quotes";
    return "correct it, or leave it out where a default will do";
}

}  // namespace

void check_schema(const nlohmann::json& document, std::string_view schema, const std::string& page,
                  Collector& findings) {
    for (SchemaViolation& violation : validate(document, schema)) {
        const bool name = violation.id == "unknown-member";
        std::string next = what_to_do(violation, page);
        findings.add(violation.id, Severity::Error, {violation.pointer, name},
                     {std::move(violation.message),
                      std::move(violation.expected),
                      std::move(violation.nearest),
                      std::move(next),
                      {},
                      replace_by(std::move(violation.mend))});
    }
}

}  // namespace halfsplit
