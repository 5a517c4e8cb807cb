#include "halfsplit/base/finding.hpp"

#include "support/catch.hpp"

using namespace halfsplit;

namespace {

Finding example() {
    Finding finding;
    finding.id = "unknown-part";
    finding.location = {"van.json", 12, 24};
    finding.source_line = "      \"stands_in_for\": \"M9\",";
    finding.message = "no part is named \"M9\"";
    finding.expected = "a module or an option of this file";
    finding.nearest = "M2";
    finding.next_step = "correct the name, or add the part";
    return finding;
}

}  // namespace

TEST_CASE("a finding says what, where, what was expected, the nearest name and what to do") {
    CHECK(to_text(example()) ==
          "van.json:12:24: error: no part is named \"M9\" [unknown-part]\n"
          "  \"stands_in_for\": \"M9\",\n"
          "                   ^\n"
          "  Expected: a module or an option of this file.\n"
          "  Nearest known name: \"M2\".\n"
          "  Next: correct the name, or add the part.");
}

TEST_CASE("a finding about a whole file has no line and no caret") {
    Finding finding;
    finding.id = "file-missing";
    finding.severity = Severity::Warning;
    finding.location.file = "van.json";
    finding.message = "there is no such file";
    CHECK(to_text(finding) == "van.json: warning: there is no such file [file-missing]");
}

TEST_CASE("the caret stands under its column where the line has tabs and letters of several bytes") {
    Finding finding;
    finding.id = "x";
    finding.location = {"f", 1, 9};
    finding.source_line = "\t\"T\xC3\xBCr\": 9e";
    finding.message = "m";
    CHECK(to_text(finding) == "f:1:9: error: m [x]\n  \"T\xC3\xBCr\": 9e\n         ^");
}

TEST_CASE("a caret at the end of a blank line still stands somewhere") {
    Finding finding;
    finding.id = "x";
    finding.location = {"f", 3, 1};
    finding.source_line = "   ";
    finding.message = "m";
    CHECK(to_text(finding) == "f:3:1: error: m [x]\n     \n  ^");
}

TEST_CASE("names from a hostile file cannot steer the terminal") {
    Finding finding = example();
    finding.message = "no part is named \"\x1B]0;x\x07\"";
    finding.nearest = "\x1B[2J";
    const std::string text = to_text(finding);
    CHECK(text.find('\x1B') == std::string::npos);
    CHECK(text.find("named \"?]0;x?\"") != std::string::npos);
}

TEST_CASE("an input error carries its findings and tells them all") {
    Finding second = example();
    second.id = "other";
    const InputError error(std::vector<Finding>{example(), second});
    CHECK(error.findings().size() == 2);
    CHECK(std::string(error.what()) == to_text(example()) + "\n" + to_text(second));
    CHECK(any_error(error.findings()));
    second.severity = Severity::Warning;
    CHECK_FALSE(any_error({second}));
}
