#include "halfsplit/base/schema.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"

using namespace halfsplit;
using nlohmann::json;

namespace {

const json& rules() {
    static const json schema = json::parse(R"({
      "$schema": "http://json-schema.org/draft-07/schema#",
      "type": "object",
      "required": ["id"],
      "additionalProperties": false,
      "properties": {
        "id": { "type": "string", "minLength": 1, "maxLength": 4, "pattern": "^[a-z]+$", "description": "its name" },
        "kind": { "enum": ["loop", "spur"] },
        "version": { "const": 1 },
        "count": { "type": "integer", "description": "how many" },
        "minutes": { "type": "number", "minimum": 0, "maximum": 1440, "description": "minutes to take it off" },
        "section": { "type": "number", "exclusiveMinimum": 0 },
        "list": { "type": "array", "minItems": 1, "items": { "$ref": "#/definitions/entry" } },
        "fitted": { "description": "whether it is there", "anyOf": [
          { "type": "string", "enum": ["yes", "no"] },
          { "type": "object", "required": ["option"], "additionalProperties": false,
            "properties": { "option": { "type": "string" } } } ] }
      },
      "definitions": { "entry": { "type": "object", "additionalProperties": false,
        "properties": { "length_m": { "type": "number", "description": "metres" }, "a/b": { "type": "string" } } } }
    })");
    return schema;
}

std::string told(const std::string& document) {
    std::string text;
    for (const SchemaViolation& violation : validate_against(rules(), json::parse(document))) {
        text += violation.id + " " + violation.pointer + " | " + violation.message + " | " +
                violation.expected + " | " + violation.nearest + "\n";
    }
    return text;
}

}  // namespace

TEST_CASE("a sound document has no violations") {
    CHECK(told(R"({"id": "a", "kind": "loop", "version": 1, "count": 2, "minutes": 1440, "section": 0.1,
                   "list": [{"length_m": 2}], "fitted": {"option": "lift"}})")
              .empty());
    CHECK(told(R"({"id": "a", "fitted": "no"})").empty());
}

TEST_CASE("each kind of violation is told once, at its innermost place, in words of the schema") {
    CHECK(told(R"({"kind": "loop"})") == "missing-member  | the member \"id\" is missing | its name | \n");
    CHECK(told(R"({"id": "a", "knid": "loop"})") ==
          "unknown-member /knid | no member here is named \"knid\" | "
          "one of count, fitted, id, kind, list, minutes, section, version | kind\n");
    CHECK(told(R"({"id": 5})") ==
          "wrong-type /id | 5 is not of the right kind | text in double quotes; its name | \n");
    CHECK(told(R"({"id": "a", "kind": "lop"})") ==
          "not-a-choice /kind | \"lop\" is not one of the choices | one of \"loop\", \"spur\" | loop\n");
    CHECK(told(R"({"id": "a", "version": 2})") ==
          "not-a-choice /version | 2 is not what must stand here | 1 | \n");
    CHECK(told(R"({"id": "a", "count": 2.0})") ==
          "wrong-type /count | 2.0 is not of the right kind | a whole number; how many | \n");
    CHECK(told(R"({"id": "a", "minutes": -3})") ==
          "out-of-range /minutes | -3 is out of range | at least 0; minutes to take it off | \n");
    CHECK(told(R"({"id": "a", "minutes": 9999})") ==
          "out-of-range /minutes | 9999 is out of range | at most 1440; minutes to take it off | \n");
    CHECK(told(R"({"id": "a", "section": 0})") ==
          "out-of-range /section | 0 is out of range | more than 0 | \n");
    CHECK(told(R"({"id": ""})") == "out-of-range /id | 0 characters are too few | at least 1; its name | \n");
    CHECK(told(R"({"id": "abcde"})") ==
          "out-of-range /id | 5 characters are too many | at most 4; its name | \n");
    CHECK(told(R"({"id": "a", "list": []})") ==
          "out-of-range /list | 0 entries are too few | at least 1 | \n");
    CHECK(told(R"([])") ==
          "wrong-type  | a list, [ ... ] is not of the right kind | an object, { ... } | \n");
}

TEST_CASE("a misspelt member is not also told as missing") {
    CHECK(told(R"({"ids": "a"})") ==
          "unknown-member /ids | no member here is named \"ids\" | "
          "one of count, fitted, id, kind, list, minutes, section, version | id\n");
}

TEST_CASE("inside lists, alternatives and referred definitions the place is exact") {
    CHECK(told(R"({"id": "a", "list": [{}, {"length_m": "2"}]})") ==
          "wrong-type /list/1/length_m | \"2\" is not of the right kind | a number; metres | \n");
    CHECK(told(R"({"id": "a", "list": [{"a/b": 1}]})") ==
          "wrong-type /list/0/a~1b | 1 is not of the right kind | text in double quotes | \n");
    CHECK(told(R"({"id": "a", "fitted": "maybe"})") ==
          "not-a-choice /fitted | \"maybe\" is not one of the choices | "
          "one of \"yes\", \"no\"; whether it is there | \n");
    CHECK(told(R"({"id": "a", "fitted": {"optoin": "lift"}})") ==
          "unknown-member /fitted/optoin | no member here is named \"optoin\" | one of option | option\n");
    CHECK(told(R"({"id": "a", "fitted": 1})") ==
          "wrong-type /fitted | 1 is not of the right kind | "
          "text in double quotes or an object, { ... }; whether it is there | \n");
}

TEST_CASE("a mistake of an object and one below it are both told") {
    CHECK(told(R"({"list": [{"lenght_m": 2}]})") ==
          "missing-member  | the member \"id\" is missing | its name | \n"
          "unknown-member /list/0/lenght_m | no member here is named \"lenght_m\" | one of a/b, length_m | "
          "length_m\n");
}

TEST_CASE("a keyword without words of its own is told in those of the validator") {
    const json schema =
        json::parse(R"({"type": "object", "properties": {"a": {"type": "integer", "multipleOf": 5}}})");
    const auto violations = validate_against(schema, json::parse(R"({"a": 7})"));
    REQUIRE(violations.size() == 1);
    CHECK(violations.front().id == "schema-mismatch");
    CHECK(violations.front().pointer == "/a");
    CHECK_FALSE(violations.front().message.empty());
    CHECK(validate_against(json::parse(R"({"not": {}})"), json(1)).size() == 1);
}

TEST_CASE("a flood of mistakes is told in part") {
    const json schema = json::parse(R"({"type": "array", "items": {"type": "string"}})");
    CHECK(validate_against(schema, json(std::vector<int>(100'000, 1))).size() == 1000);
}

TEST_CASE("patterns are left to the reader, so that a long name cannot exhaust the stack") {
    const json schema = json::parse(R"({"type": "string", "pattern": "^(a|b)*$"})");
    CHECK(validate_against(schema, json(std::string(10'000'000, 'a'))).empty());
}

TEST_CASE("a schema that is not there is a mistake of the caller") {
    CHECK_THROWS_AS(validate(json::object(), "no such schema"), std::invalid_argument);
    CHECK(schema_text("no such schema").empty());
}
