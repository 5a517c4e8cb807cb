// Bridge plugs that stand in for nothing, sit nowhere, or share a cavity that is not there.
#include "halfsplit/harness/read.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"

#include <algorithm>
#include <string>

using namespace halfsplit;

namespace {

// A sound harness whose plug BP1 stands in for M2, where that is not fitted.
std::string plugged() {
    std::string text = test::read_file("data/demo/broken/plug-for-nothing.json");
    return text.replace(text.find("\"M7\""), 4, "\"M2\"");
}

struct Mistake {
    std::string from, to, id, message, nearest;
};

}  // namespace

TEST_CASE("a bridge plug in its place is sound") {
    CHECK(harness::read_harness(plugged(), "van.json").findings.empty());
}

TEST_CASE("each mistake of a bridge plug has its finding") {
    const std::string access = ", \"access\": { \"place\": \"rear\", \"covers\": [\"trim\"] }";
    const std::string seat =
        "\"at\": \"M2\",\n      \"in\": { \"h\": \"1\", \"l\": \"2\" }, "
        "\"out\": { \"h\": \"3\", \"l\": \"4\" }";
    const auto ports = [&](const std::string& at, const std::string& in) {
        return "\"at\": \"" + at + "\", \"in\": " + in + ", \"out\": { \"h\": \"7\", \"l\": \"8\" }";
    };
    const std::vector<Mistake> mistakes{
        {"\"M2\", \"at\"", "\"M\", \"at\"", "plug-for-nothing", "no module and no option has the id \"M\"",
         "M1"},
        {"\"M2\", \"at\"", "\"X1\", \"at\"", "plug-for-nothing", "no module and no option has the id \"X1\"",
         ""},
        {"\"at\": \"M2\"", "\"at\": \"M22\"", "bad-terminal", "a bridge plug cannot sit at \"M22\"", "M2"},
        {"\"at\": \"M2\"", "\"at\": \"X1\"", "bad-terminal", "a bridge plug cannot sit at \"X1\"", ""},
        {"\"at\": \"M2\"", "\"at\": \"X1.c\"", "bad-terminal", "a bridge plug cannot sit at \"X1.c\"", ""},
        {"\"at\": \"M2\"", "\"at\": \"S1\"", "bad-terminal", "a bridge plug cannot sit at \"S1\"", ""},
        {"\"h\": \"1\", \"l\": \"2\" }, \"out\": { \"h\": \"3\", \"l\": \"4\" } }\n  ],\n  \"runs\"",
         "\"h\": \"9\", \"l\": \"2\" }, \"out\": { \"h\": \"3\", \"l\": \"4\" } }\n  ],\n  \"runs\"",
         "unknown-cavity", "M2 has no bus pin in cavity \"9\"", ""},
        {"\"at\": \"M2\",\n     ", "", "missing-member", "the member \"access\" is missing", ""},
        {seat, ports("X1.a", "{ \"h\": \"99\", \"l\": \"2\" }"), "unknown-cavity", "99", ""},
        {seat, ports("X1.a", "{ \"h\": \"1\", \"l\": \"1\" }"), "wrong-line",
         "X1.a:1 is line H of main, not line L of main", ""},
    };
    for (const Mistake& mistake : mistakes) {
        std::string text = plugged();
        const auto at = text.rfind(mistake.from);
        INFO(mistake.from << " -> " << mistake.to);
        REQUIRE(at != std::string::npos);
        const auto result =
            harness::read_harness(text.replace(at, mistake.from.size(), mistake.to), "van.json");
        INFO(to_text(result.findings));
        const auto found = std::find_if(result.findings.begin(), result.findings.end(),
                                        [&](const Finding& one) { return one.id == mistake.id; });
        REQUIRE(found != result.findings.end());
        const Finding& finding = *found;
        CHECK(finding.message.find(mistake.message) != std::string::npos);
        CHECK(finding.nearest == mistake.nearest);
        CHECK(finding.location.line >= 35);
        CHECK_FALSE(finding.next_step.empty());
        CHECK(result.harness.has_value() == (finding.severity == Severity::Warning));
    }
}

TEST_CASE("a bridge plug for a module that is always there is told as never used") {
    std::string text = plugged();
    const std::string fitted = "\"fitted\": { \"option\": \"lift\" },";
    text.replace(text.find(fitted), fitted.size(), "");
    const auto result = harness::read_harness(text, "van.json");
    INFO(to_text(result.findings));
    REQUIRE(result.harness);
    REQUIRE(result.findings.size() == 1);
    CHECK(result.findings.front().id == "plug-for-nothing");
    CHECK(result.findings.front().message == "M2 is always fitted, so that the plug is never there");
}
