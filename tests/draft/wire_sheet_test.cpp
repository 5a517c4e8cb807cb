// The demo sheets make the demo harnesses; sheets and harness files turn into one another without loss.
#include "halfsplit/draft/wire_sheet.hpp"

#include "halfsplit/harness/read.hpp"

#include "draft/differences.hpp"
#include "support/catch.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"
#include "support/random_harness.hpp"
#include "support/random_single_line.hpp"

#include <algorithm>
#include <sstream>

using namespace halfsplit;
using draft::Json;

namespace {

struct Demo {
    test::FakeFiles files;
    Demo() {
        for (const char* name : {"minibus", "forestry"}) {
            for (const std::string& path : {std::string(name) + ".wires", std::string(name) + ".json",
                                            "library/" + std::string(name) + ".json"}) {
                files.put(path, test::read_file("data/demo/" + path));
            }
        }
    }
    draft::Drafted drafted(const std::string& name, bool whole = false) {
        return draft::draft_sheet(files.text_of(name + ".wires"), name + ".wires", files, {.whole = whole});
    }
};

// What the sheet of the demo says in fewer words, or not at all: names and notes, and figures that are the
// usual ones.
bool said_less(const std::string& line) {
    const auto has = [&](const char* text) { return line.find(text) != std::string::npos; };
    if (line.rfind("vehicle", 0) == 0 || line.rfind("title", 0) == 0 || line.rfind("note", 0) == 0)
        return true;
    if (line == "start: driver") return true;  // the first place
    return has(" name") || has(" note") || has("terminator_ohm: 120") || has(" ohm: 120") ||
           has("kind: iso11898-2") || has("passenger counter") ||
           (line.rfind("bridge_plugs", 0) == 0 && has(" access:"));
}

std::size_t lines_in(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

std::size_t longest_line(const std::string& text) {
    std::istringstream lines(text);
    std::size_t longest = 0;
    for (std::string line; std::getline(lines, line);) longest = std::max(longest, line.size());
    return longest;
}

// From sheet to harness and back until nothing changes any more: it must not change at all.
void check_there_and_back(const std::string& harness, const std::string& name, Files& files) {
    const draft::WrittenSheet sheet = draft::write_sheet(harness, name, files);
    INFO(name << "\n" << sheet.text << to_text(sheet.findings));
    for (const std::string& line : sheet.left_out) UNSCOPED_INFO(line);
    REQUIRE(sheet.left_out.empty());
    const draft::Drafted once = draft::draft_sheet(sheet.text, name, files);
    REQUIRE_FALSE(once.json.empty());
    const draft::WrittenSheet again = draft::write_sheet(once.json, name, files);
    REQUIRE(again.left_out.empty());
    REQUIRE(draft::draft_sheet(again.text, name, files).json == once.json);
}

}  // namespace

TEST_CASE("the demo sheets make the demo harnesses, but for words and usual figures") {
    Demo demo;
    for (const std::string name : {"minibus", "forestry"}) {
        const draft::Drafted drafted = demo.drafted(name);
        INFO(name << "\n" << to_text(drafted.findings));
        REQUIRE(drafted.findings.empty());
        const auto lines =
            draft::differences(Json::parse(demo.files.text_of(name + ".json")), Json::parse(drafted.json));
        for (const std::string& line : lines) {
            INFO(line);
            CHECK(said_less(line));
        }
        CHECK(lines.size() > 20);  // names and notes
    }
}

TEST_CASE("the models of sheet and demo agree in parts, terminals, points, networks and access") {
    Demo demo;
    for (const std::string name : {"minibus", "forestry"}) {
        INFO(name);
        const auto sheet =
            harness::read_harness_text(demo.files, demo.drafted(name).json, name + ".json").harness;
        const auto file = harness::read_harness_file(demo.files, name + ".json").harness;
        REQUIRE(sheet);
        REQUIRE(file);
        REQUIRE(sheet->parts.size() == file->parts.size());
        REQUIRE(sheet->terminals.size() == file->terminals.size());
        REQUIRE(sheet->points.size() == file->points.size());
        REQUIRE(sheet->travel.minutes == file->travel.minutes);
        for (const harness::Part& part : file->parts) {
            INFO(part.id);
            const harness::Index index = harness::find_part(*sheet, part.id);
            REQUIRE(index != harness::none);
            const harness::Part& same = sheet->parts[index];
            CHECK(same.kind == part.kind);
            CHECK(same.fitted == part.fitted);
            CHECK(same.access.place == part.access.place);
            CHECK(same.access.covers == part.access.covers);
            CHECK(same.access.probe_minutes == part.access.probe_minutes);
            CHECK(same.access.look_minutes == part.access.look_minutes);
            CHECK(same.length_m == part.length_m);
            CHECK(same.section_mm2 == part.section_mm2);
            CHECK(same.ohm == part.ohm);
        }
        for (harness::Index point = 0; point < file->points.size(); ++point) {
            const std::string point_name = harness::point_name(*file, point);
            INFO(point_name);
            CHECK(harness::find_point(*sheet, point_name) != harness::none);
        }
        for (std::size_t i = 0; i < file->networks.size(); ++i) {
            CHECK(harness::point_name(*sheet, sheet->networks[i].clip) ==
                  harness::point_name(*file, file->networks[i].clip));
        }
    }
}

TEST_CASE(
    "a sheet is a tenth of the file it makes, places and covers written out, and a bus fits a screen or "
    "two") {
    Demo demo;
    const std::string minibus = demo.files.text_of("minibus.wires");
    CHECK(lines_in(minibus) < 60);
    for (const std::string name : {"minibus", "forestry"}) {
        const std::string sheet = demo.files.text_of(name + ".wires");
        const std::string whole = demo.drafted(name, true).json;
        INFO(name << ": " << sheet.size() << " characters for " << whole.size() << ", and "
                  << demo.drafted(name).json.size() << " where the places are included");
        CHECK(sheet.size() * 10 <= whole.size());
        CHECK(longest_line(sheet) <= 78);
    }
}

TEST_CASE("harness files turn into sheets and back without loss") {
    Demo demo;
    for (const std::string name : {"minibus.json", "forestry.json"})
        check_there_and_back(demo.files.text_of(name), name, demo.files);
    for (const std::string path : {"tests/data/small_chain.json", "tests/data/lamp_feed.json"})
        check_there_and_back(test::read_file(path), path, demo.files);
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        check_there_and_back(test::random_harness_json(seed), "random " + std::to_string(seed), demo.files);
        if (seed <= 20)
            check_there_and_back(test::random_single_line_json(seed), "single " + std::to_string(seed),
                                 demo.files);
    }
}

TEST_CASE("a demo sheet's harness file comes out the same, byte for byte, after a sheet of its own") {
    Demo demo;
    for (const std::string name : {"minibus", "forestry"}) {
        INFO(name);
        const std::string json = demo.drafted(name).json;
        const draft::WrittenSheet sheet = draft::write_sheet(json, name + ".json", demo.files);
        CHECK(sheet.left_out.empty());
        CHECK(draft::draft_sheet(sheet.text, name + ".wires", demo.files).json == json);
    }
}

TEST_CASE("what a sheet cannot say is told when it is written") {
    Demo demo;
    std::string text = test::read_file("tests/data/small_chain.json");
    Json file = Json::parse(text);
    file["connectors"][0]["face"]["cavities"][0] = "A1";
    file["runs"][0]["h"]["to_base"] = file["runs"][0]["h"]["base"];
    const draft::WrittenSheet sheet = draft::write_sheet(file.dump(), "chain.json", demo.files);
    INFO(to_text(sheet.findings) << sheet.text);
    REQUIRE(sheet.left_out.size() == 2);
    CHECK(sheet.left_out[0].find("connectors X1 face") == 0);
    CHECK(sheet.left_out[1].find("runs W1 h to_base") == 0);
}
