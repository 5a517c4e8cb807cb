// Terminators are counted for each set of options that the vehicle may have.
#include "halfsplit/harness/read.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"

using namespace halfsplit;
using nlohmann::json;

namespace {

// A chain of GW (terminator), M1 (terminator) and the terminator T1, where nobody knows of the lift.
json open_vehicle() {
    json file = json::parse(test::read_file("data/demo/broken/terminator-count.json"));
    file["options"][0]["fitted"] = "unknown";
    for (json& module : file["modules"]) module.erase("fitted");
    file.erase("bridge_plugs");
    return file;
}

std::vector<Finding> findings_of(const json& file) {
    return harness::read_harness(file.dump(1), "van.json").findings;
}

json& part(json& file, const char* list, const std::string& id) {
    for (json& one : file[list]) {
        if (one["id"] == id) return one;
    }
    throw std::runtime_error(id);
}

}  // namespace

TEST_CASE("the set of options with a wrong count is named") {
    json file = open_vehicle();
    part(file, "modules", "M1")["fitted"] = {{"option", "lift"}};
    const auto findings = findings_of(file);
    REQUIRE(findings.size() == 1);
    REQUIRE(findings[0].id == "terminator-count");
    REQUIRE(findings[0].message == "main has 3 terminators with wheelchair lift (GW, M1 and T1)");
    part(file, "terminators", "T1")["fitted"] = {{"option", "lift"}};
    REQUIRE(findings_of(file)[0].message ==
            "main has 3 terminators with wheelchair lift (GW, M1 and T1); 1 other set of options is wrong as "
            "well");
}

TEST_CASE("a terminator that takes another's place is one in every set") {
    json file = open_vehicle();
    part(file, "modules", "M1")["fitted"] = {{"option", "lift"}};
    part(file, "terminators", "T1")["fitted"] = {{"without_option", "lift"}};
    REQUIRE(findings_of(file).empty());
}

TEST_CASE("where too much is open, only what no set can mend is told") {
    json file = open_vehicle();
    file["modules"][0]["buses"][0]["terminator"] = "none";
    part(file, "modules", "M1")["buses"][0]["terminator"] = "none";
    const json terminator = part(file, "terminators", "T1");
    json run;
    for (const json& one : file["runs"]) {
        if (one["h"]["to"] == "T1:1") run = one;
    }
    for (int i = 0; i < 12; ++i) {
        const std::string id = "TX" + std::to_string(i);
        json own = terminator, wire = run;
        own["id"] = id;
        own["fitted"] = "unknown";
        wire["id"] = "R" + id;
        for (const char* line : {"h", "l"}) {
            wire[line]["from"] = std::string("S1:") + (line[0] == 'h' ? "H" : "L");
            wire[line]["to"] = id + (line[0] == 'h' ? ":1" : ":2");
        }
        file["terminators"].push_back(own);
        file["runs"].push_back(wire);
    }
    REQUIRE(findings_of(file).empty());
    file["networks"][0]["terminators"] = 0;
    const auto findings = findings_of(file);
    REQUIRE(findings.size() == 1);
    REQUIRE(findings[0].message == "main has 1 terminator with nothing fitted that may be (T1)");
}

TEST_CASE("stubs and buses are judged by the bit rate") {
    json file = json::parse(test::read_file("data/demo/broken/stubs-together.json"));
    REQUIRE(findings_of(file)[0].id == "stubs-together");
    file["networks"][0]["bit_rate"] = 250000;  // 55 m together
    REQUIRE(findings_of(file).empty());
    for (json& run : file["runs"]) {
        if (run["id"] == "W4") run["length_m"] = 249;
    }
    REQUIRE(findings_of(file)[0].id == "bus-too-long");  // 250 m
    file["networks"][0]["bit_rate"] = 125000;            // 500 m
    REQUIRE(findings_of(file).empty());
}
