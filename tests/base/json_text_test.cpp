#include "halfsplit/base/json_text.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"

using namespace halfsplit;
using nlohmann::json;

namespace {

std::vector<Finding> refusal(const std::string& text) {
    try {
        parse_json(text, "f");
    } catch (const InputError& error) {
        return error.findings();
    }
    return {};
}

// The text of the one finding.
std::string told(const std::string& text) {
    const auto findings = refusal(text);
    REQUIRE(findings.size() == 1);
    return to_text(findings.front());
}

std::string heading(const std::string& text) {
    const std::string whole = told(text);
    return whole.substr(0, whole.find('\n'));
}

std::string place(const Location& location) {
    return std::to_string(location.line) + ':' + std::to_string(location.column);
}

}  // namespace

TEST_CASE("what a stock parser reads, this one reads alike") {
    for (const std::string text :
         {"0", "\"x\"", "null", "[]", "{}", "[[],{},[1,-2,2.5,true,null,\"\\u00fc\"]]",
          "{\"a\":{\"b\":[1,{\"c\":18446744073709551615}]},\"d\":-9223372036854775808}",
          "\xEF\xBB\xBF{\"a\":1}"}) {
        CHECK(parse_json(text, "f") == json::parse(text));
    }
}

TEST_CASE("a syntax mistake is told with its place, a caret and what to do") {
    CHECK(told("{\n  \"a\": [1, 2,],\n  \"b\": 3\n}") ==
          "f:2:14: error: a comma before a closing bracket [json-syntax]\n"
          "  \"a\": [1, 2,],\n"
          "             ^\n"
          "  Expected: nothing after the last entry.\n"
          "  Next: delete the comma.");
}

TEST_CASE("each common mistake has words of its own") {
    CHECK(heading("") == "f:1:1: error: the text is empty [json-syntax]");
    CHECK(heading("{\"a\": NaN}") == "f:1:7: error: NaN is not a number in JSON [json-syntax]");
    CHECK(heading("{\"a\": -Infinity}") == "f:1:7: error: -Infinity is not a number in JSON [json-syntax]");
    CHECK(heading("{\"a\": 1e999}") == "f:1:7: error: the number 1e999 is too large [json-syntax]");
    CHECK(heading("{\"a\": 01}") == "f:1:7: error: \"01\" is not a number in JSON [json-syntax]");
    CHECK(heading("{\"a\": 1.}") == "f:1:7: error: \"1.\" is not a number in JSON [json-syntax]");
    CHECK(heading("{\"a\": True}") == "f:1:7: error: \"True\" is not spelt as in JSON [json-syntax]");
    CHECK(heading("{'a': 1}") == "f:1:2: error: single quotes [json-syntax]");
    CHECK(heading("{a: 1}") == "f:1:2: error: \"a\" stands without double quotes [json-syntax]");
    CHECK(heading("// c\n{}") == "f:1:1: error: a comment; JSON has none [json-syntax]");
    CHECK(heading("{\"a\": 1 // c\n}") == "f:1:9: error: a comment; JSON has none [json-syntax]");
    CHECK(heading("{\"a\": 1\n \"b\": 2}") == "f:2:2: error: a comma is missing before this [json-syntax]");
    CHECK(heading("[1 2]") == "f:1:4: error: a comma is missing before this [json-syntax]");
    CHECK(heading("{\"a\" 1}") == "f:1:6: error: a comma or a colon is missing before this [json-syntax]");
    CHECK(heading("{\"a\": }") == "f:1:7: error: a value is missing [json-syntax]");
    CHECK(heading("[1,,2]") == "f:1:4: error: a comma where none belongs [json-syntax]");
    CHECK(heading("{\"a\": \"x\ny\"}") == "f:1:7: error: the string is not closed on its line [json-syntax]");
    CHECK(heading("{\"a\": \"x\\q\"}") ==
          "f:1:10: error: a backslash that begins nothing JSON knows [json-syntax]");
    CHECK(heading("{\"a\": \"x\x01\"}") == "f:1:9: error: a control character inside a string [json-syntax]");
    CHECK(heading("{\"a\": 1} x") == "f:1:10: error: text after the end of the document [json-syntax]");
    CHECK(heading("{\"a\": 1}}") == "f:1:9: error: text after the end of the document [json-syntax]");
    CHECK(heading("[1}") == "f:1:3: error: a closing bracket that closes nothing [json-syntax]");
    CHECK(heading("{1: 2}") == "f:1:2: error: \"1\" is not a number in JSON [json-syntax]");
    CHECK(heading("{\"a\": 1,\n") == "f:2:1: error: the text ends too early [json-syntax]");
    CHECK(heading("{\"a\": \"xyz") == "f:1:7: error: the text ends inside a string [json-syntax]");
}

TEST_CASE("cutting a document anywhere gives a finding, never a crash") {
    const std::string whole = R"({"a": [1.5, "x\n\u00fc", {"b": true}, null], "c": -1e3})";
    for (std::size_t length = 0; length < whole.size(); ++length) {
        const auto findings = refusal(whole.substr(0, length));
        REQUIRE(findings.size() == 1);
        CHECK(findings.front().id == "json-syntax");
    }
}

TEST_CASE("changing any one byte gives a document or a finding with a place inside the text") {
    const std::string whole = "{\"a\": [1.5, \"x\\n\"],\n \"c\": {\"d\": null}}";
    for (std::size_t at = 0; at < whole.size(); ++at) {
        for (int byte = 0; byte < 256; ++byte) {
            std::string text = whole;
            text[at] = static_cast<char>(byte);
            for (const Finding& finding : refusal(text)) {
                CHECK(finding.location.line >= 1);
                CHECK(finding.location.line <= 3);
                CHECK(finding.location.column >= 1);
            }
        }
    }
}

TEST_CASE("nesting is refused where it passes the limit, without recursion") {
    CHECK(parse_json(std::string(deepest_nesting, '[') + std::string(deepest_nesting, ']'), "f").is_array());
    CHECK(heading(std::string(deepest_nesting + 1, '[')) ==
          "f:1:65: error: the text is nested too deeply [json-depth]");
    const auto findings = refusal("\n" + std::string(100'000, '['));
    REQUIRE(findings.size() == 1);
    CHECK(place(findings.front().location) == "2:65");
}

TEST_CASE("a name that stands twice in one object is refused, each with its place") {
    const auto findings =
        refusal("{\"a\": {\"b\": 1, \"c\": 2, \"\\u0062\": 3},\n \"a\": 4, \"d\": [{\"e\": 1}, {\"e\": 2}]}");
    REQUIRE(findings.size() == 2);
    CHECK(to_text(findings[0]) ==
          "f:1:24: error: the name \"\\u0062\" stands twice in one object [json-duplicate-name]\n"
          "  {\"a\": {\"b\": 1, \"c\": 2, \"\\u0062\": 3},\n"
          "                         ^\n"
          "  Expected: each name once.\n"
          "  Next: delete one of the two, or rename it.");
    CHECK(place(findings[1].location) == "2:2");
}

TEST_CASE("text that is not UTF-8 is refused at its first wrong byte") {
    CHECK(heading("{\"\xC3\xBC\": \"\xFF\"}") == "f:1:8: error: a byte that is not UTF-8 [json-encoding]");
    CHECK(heading(std::string("{}\0x", 4)) == "f:1:3: error: a zero byte in the text [json-encoding]");
    CHECK(heading("\xFF\xFE{") == "f:1:1: error: a byte that is not UTF-8 [json-encoding]");
}

TEST_CASE("too many values are refused before they fill the memory") {
    std::string text = "[0";
    for (std::size_t i = 0; i < most_values; ++i) text += ",0";
    text += ']';
    CHECK(heading(text) == "f: error: the text holds too many values [json-size]");
}

TEST_CASE("a value is found by its pointer, and its name too") {
    const std::string text = "{ \"a\": [ 10,\n  {\"b/c\": \"\xC3\xBC\", \"d~\": [] } ],\n  \"\\u0065\": 5 }";
    CHECK(place(locate(text, "", "f")) == "1:1");
    CHECK(place(locate(text, "/a", "f")) == "1:8");
    CHECK(place(locate(text, "/a/0", "f")) == "1:10");
    CHECK(place(locate(text, "/a/1", "f")) == "2:3");
    CHECK(place(locate(text, "/a/1/b~1c", "f")) == "2:11");
    CHECK(place(locate(text, "/a/1/d~0", "f")) ==
          "2:22");  // the letter before it is two bytes and one column
    CHECK(place(locate(text, "/e", "f")) == "3:13");
    CHECK(locate(text, "/e", "f").file == "f");
    const auto spots = locate(text, {{"/e", true}, {"/a/1/d~0", true}, {"/a/0", true}}, "f");
    CHECK(place(spots[0]) == "3:3");
    CHECK(place(spots[1]) == "2:16");
    CHECK(place(spots[2]) == "1:10");
}

TEST_CASE("an unknown pointer gives the place of its nearest known parent") {
    const std::string text = "{\n \"a\": [1, {\"b\": 2}] }";
    CHECK(place(locate(text, "/a/1/x/y", "f")) == "2:11");
    CHECK(place(locate(text, "/a/7", "f")) == "2:7");
    CHECK(place(locate(text, "/z", "f")) == "1:1");
    CHECK(place(locate("\xEF\xBB\xBF{\"a\":1}", "/a", "f")) == "1:6");  // a byte order mark is no column
}

TEST_CASE("a pointer's name escapes its two signs") {
    CHECK(pointer_token("a/b~c") == "a~1b~0c");
}

TEST_CASE("a line is shown without its end") {
    CHECK(line_of("one\r\ntwo\n", 1) == "one");
    CHECK(line_of("one\r\ntwo\n", 2) == "two");
    CHECK(line_of("one\r\ntwo\n", 3).empty());
    CHECK(line_of("one", 9).empty());
    CHECK(line_of(std::string(5000, 'x'), 1).size() == 120);
}

TEST_CASE("a long line is cut around its caret") {
    std::string text = "[";
    for (int i = 0; i < 400; ++i) text += "1,";
    text += "x]";
    const auto findings = refusal(text);
    REQUIRE(findings.size() == 1);
    const Finding& finding = findings.front();
    CHECK(finding.location.column == 802);
    CHECK(finding.source_line.size() <= 126);
    CHECK(finding.source_line.substr(0, 3) == "...");
    CHECK(finding.source_line.at(finding.caret - 1) == 'x');
}
