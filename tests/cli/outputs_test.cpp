// Every machine output against its published schema, and saved jobs of the demo against the log's.
#include "halfsplit/base/schema.hpp"
#include "halfsplit/cli/run.hpp"
#include "halfsplit/job/log.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"

#include <filesystem>
#include <set>
#include <sstream>

using namespace halfsplit;
using nlohmann::json;

namespace {

struct Bench {
    test::FakeFiles files;
    test::FakeClock clock;
    std::ostringstream out, err;

    Bench() {
        files.put("small.json", test::read_file("tests/data/small_chain.json"));
        files.put("bad.json", test::read_file("data/demo/broken/unknown-reference.json"));
    }

    void put_minibus() {
        files.put("minibus.json", test::read_file("data/demo/minibus.json"));
        files.put("library/minibus.json", test::read_file("data/demo/library/minibus.json"));
    }

    int run(const std::vector<std::string>& arguments) {
        std::istringstream in;
        out.str("");
        cli::PlainTerminal terminal(in, out, 80);
        cli::Context context{out, err, files, clock, terminal};
        return cli::run(arguments, context);
    }

    json output(const std::vector<std::string>& arguments) {
        run(arguments);
        INFO(err.str());
        return json::parse(out.str());
    }
};

void require_valid(const json& document, std::string_view schema) {
    REQUIRE_FALSE(schema_text(schema).empty());
    for (const SchemaViolation& violation : validate(document, schema)) {
        FAIL(schema << ": " << violation.pointer << ": " << violation.message);
    }
}

}  // namespace

TEST_CASE("what next, note and review say as data holds to their schemas, at every step of a job") {
    Bench bench;
    const auto note = [&](std::vector<std::string> words) {
        words.insert(words.begin(), {"note", "small.json", "--job", "a.job", "--json"});
        require_valid(bench.output(words), "note");
        require_valid(bench.output({"next", "small.json", "--job", "a.job", "--json"}), "next");
        require_valid(bench.output({"review", "a.job", "--json"}), "review");
    };
    require_valid(bench.output({"next", "small.json", "--job", "a.job", "--json"}), "next");
    note({"intake", "complaint=seat dead", "conditions=wet,bumps"});
    note({"answers", "silent", "M1"});
    note({"safe", "ignition=off", "bus=asleep", "battery=off", "waited=10"});
    note({"reading", "X1.a:4", "clip", "OL"});
    note({"reading", "X1.b:4", "clip", "240", "moved"});
    note({"reading", "X1.a:4", "clip", "o"});
    note({"unplugged", "M1"});
    note({"plugged", "M1"});
    note({"seen", "X1", "faulty", "green"});
    note({"repair", "X1", "cleaned"});
    note({"verified", "hl=60", "answers=all", "codes=clear", "complaint=gone"});
    note({"undo"});
    note({"verified", "complaint=back"});
    note({"remark", "rain"});
    note({"close"});
}

TEST_CASE("what check says as data holds to its schema, for sound, broken and missing files") {
    Bench bench;
    const json output = bench.output({"check", "small.json", "bad.json", "missing.json", "--json"});
    require_valid(output, "check");
    REQUIRE(output["files"].size() == 3);
    REQUIRE(output["files"][0]["findings"].empty());
    REQUIRE_FALSE(output["files"][1]["findings"].empty());
    REQUIRE(output["files"][1]["findings"][0]["line"].get<int>() > 1);
    REQUIRE_FALSE(output["files"][2]["readable"].get<bool>());
}

TEST_CASE("what rehearse says as data holds to its schema", "[long]") {
    Bench bench;
    require_valid(bench.output({"rehearse", "small.json", "--fault", "X1:apart", "--json"}), "rehearse");
    const json every = bench.output({"rehearse", "small.json", "--every", "--json"});
    require_valid(every, "rehearse");
    REQUIRE(every["found"] == every["faults"].size());
}

TEST_CASE("what expect says as data holds to its schema, in each of its forms") {
    Bench bench;
    const auto expect = [&](std::vector<std::string> words) {
        words.insert(words.begin(), {"expect", "small.json", "--json"});
        json output = bench.output(words);
        require_valid(output, "expect");
        return output;
    };
    REQUIRE(expect({"--between", "X1.b:4", "clip"})["outcomes"].size() > 3);
    REQUIRE(expect({"--between", "DS:6/14", "--apart", "T1,X1"})["apart"].size() == 2);
    const json faulty = expect({"--between", "X1.b:4", "clip", "--fault", "W1:open-h"});
    REQUIRE(faulty["readings"][0]["ohm"] == "OL");
    REQUIRE(expect({"--table"})["points"].size() == 12);
    const json two = expect({"--table", "--fault", "X1:apart", "--fault", "W1:joint-h"});
    REQUIRE(two["fault"] == "X1:apart and W1:joint-h");
}

TEST_CASE("in volts expect says the same by its schema, and a point alone is both its lines") {
    Bench bench;
    const auto expect = [&](std::vector<std::string> words) {
        words.insert(words.begin(), {"expect", "small.json", "--json", "--state"});
        json output = bench.output(words);
        require_valid(output, "expect");
        return output;
    };
    const json high = expect({"awake", "--between", "DS:6", "ground"});
    REQUIRE(high["state"] == "awake");
    REQUIRE(high["outcomes"].size() == 3);
    REQUIRE(high["sound"]["low_volt"] == 2.5);
    const json point = expect({"asleep", "--between", "DS:6/14"});
    REQUIRE(point["lines"].size() == 2);
    REQUIRE(point["lines"][1]["red"] == "DS:14");
    const json fault = expect({"asleep", "--between", "DS:6/14", "--fault", "W4:supply-l"});
    REQUIRE(fault["lines"][0]["readings"][0]["told"] == true);
    REQUIRE(fault["lines"][0]["readings"][0]["volt"].get<double>() > 12);
    const json table = expect({"awake", "--table", "--fault", "W4:ground-h", "--apart", "M1"});
    REQUIRE(table["points"].size() == 12);
    // Beyond M1 nothing but a terminator is left.
    bool floats = false;
    for (const json& row : table["points"]) floats = floats || row["h_to_ground_volt"] == "floating";
    REQUIRE(floats);
}

TEST_CASE("advice to read volts holds to its schema, taken or not") {
    Bench bench;
    bench.files.put("away.json", test::socket_away_json());
    bench.run({"note", "away.json", "--job", "v.job", "intake", "complaint=dead"});
    bench.run({"note", "away.json", "--job", "v.job", "answers", "none"});
    const json advice = bench.output({"next", "away.json", "--job", "v.job", "--json"});
    require_valid(advice, "next");
    REQUIRE(advice["quantity"] == "volt");
    REQUIRE(advice["bus"] == "awake");
    REQUIRE(bench.run({"note", "away.json", "--job", "v.job", "12.4"}) == cli::Exit::fine);
    require_valid(bench.output({"next", "away.json", "--job", "v.job", "--json"}), "next");
    require_valid(bench.output({"review", "v.job", "--json"}), "review");
}

TEST_CASE("expect weighs with a job and leaves it as it is") {
    Bench bench;
    const auto parts_of_open = [&](const json& output) {
        for (const json& outcome : output["outcomes"]) {
            if (outcome["high_ohm"] == "OL") return outcome["chance"].get<double>();
        }
        return 0.0;
    };
    const json before = bench.output({"expect", "small.json", "--json", "--between", "X1.b:4", "clip"});
    bench.run({"note", "small.json", "--job", "a.job", "intake", "complaint=dead"});
    bench.run({"note", "small.json", "--job", "a.job", "safe", "ignition=off", "bus=asleep", "battery=off",
               "waited=10"});
    bench.run({"note", "small.json", "--job", "a.job", "reading", "S1:H", "clip", "OL"});
    const std::string log = bench.files.text_of("a.job");
    const json after =
        bench.output({"expect", "small.json", "--json", "--between", "X1.b:4", "clip", "--job", "a.job"});
    require_valid(after, "expect");
    REQUIRE(after["basis"] == "after the readings of a.job");
    REQUIRE(parts_of_open(after) > 5 * parts_of_open(before));
    REQUIRE(bench.files.text_of("a.job") == log);
}

TEST_CASE("what survey says as data holds to its schema", "[long]") {
    Bench bench;
    bench.put_minibus();
    const json small = bench.output({"survey", "small.json", "--json"});
    require_valid(small, "survey");
    const json with_rules = bench.output({"survey", "small.json", "--rules", "--json"});
    require_valid(with_rules, "survey");
    const json& rules = with_rules["networks"][0]["rules"];
    REQUIRE(rules.size() == 5);
    for (const json& rule : rules)
        REQUIRE(rule["expected_minutes"].get<double>() >= rules[0]["expected_minutes"].get<double>());
    REQUIRE(small["networks"].size() == 1);
    const json minibus = bench.output({"survey", "minibus.json", "--json"});
    require_valid(minibus, "survey");
    REQUIRE(minibus["networks"].size() == 2);
    REQUIRE(bench.output({"survey", "minibus.json", "--network", "drive", "--json"})["networks"].size() == 1);
}

TEST_CASE("what is left of each saved job of the demo holds to its schema") {
    std::size_t jobs = 0;
    for (const auto& entry : std::filesystem::directory_iterator(test::path_of("data/demo/jobs"))) {
        if (entry.path().extension() != ".job") continue;
        Bench bench;
        bench.files.put("saved.job", test::read_file("data/demo/jobs/" + entry.path().filename().string()));
        require_valid(bench.output({"survey", "--job", "saved.job", "--json", "--rules"}), "survey-job");
        ++jobs;
    }
    REQUIRE(jobs > 0);
}

TEST_CASE("what card says as data holds to its schema, of harnesses and at every stage of the demo's jobs",
          "[long]") {
    Bench bench;
    bench.put_minibus();
    require_valid(bench.output({"card", "small.json", "--json"}), "card");
    require_valid(bench.output({"card", "small.json", "--json", "--until", "isolated"}), "card");
    require_valid(bench.output({"card", "small.json", "--json", "--least", "worst"}), "card");
    require_valid(bench.output({"card", "minibus.json", "--network", "drive", "--json"}), "card");
    std::set<std::string> stages;
    for (const auto& entry : std::filesystem::directory_iterator(test::path_of("data/demo/jobs"))) {
        std::istringstream records(test::read_file("data/demo/jobs/" + entry.path().filename().string()));
        std::string begun;
        std::size_t count = 0;
        for (std::string record; std::getline(records, record);) {
            begun += record + "\n";
            // Plans take a while: one of each hunt, and where its stage changes.
            const bool changes = record.find("\"kind\":\"seen\"") != std::string::npos ||
                                 record.find("\"kind\":\"repair\"") != std::string::npos ||
                                 record.find("\"kind\":\"closed\"") != std::string::npos;
            if (++count != 5 && !changes) continue;
            bench.files.put("saved.job", begun);
            const json card = bench.output({"card", "--job", "saved.job", "--json"});
            require_valid(card, "card");
            stages.insert(card["stage"].get<std::string>());
        }
    }
    CHECK(stages.size() >= 4);
}

TEST_CASE("the demo's matrix, and what survey says of it as data, hold to their schemas", "[long]") {
    Bench bench;
    const std::string matrix = test::read_file("data/demo/matrix.json");
    bench.files.put("matrix.json", matrix);
    require_valid(json::parse(matrix), "matrix");
    const json output = bench.output({"survey", "--matrix", "matrix.json", "--json", "--rules"});
    require_valid(output, "survey-matrix");
    REQUIRE(output["rules"][0]["expected_minutes"].get<double>() ==
            Approx(output["expected_minutes"].get<double>()).margin(1e-4));
    REQUIRE(output["ambiguity_groups"] == json{{0, 1}, {2}, {3}, {4}, {5, 6}});
}

TEST_CASE("what draft tells as data holds to its schema, of sheets, harness files and wire data", "[kbl]") {
    Bench bench;
    bench.put_minibus();
    bench.files.put("minibus.wires", test::read_file("data/demo/minibus.wires"));
    bench.files.put("bad.wires", "bus body\nGW 1/2 @dash/dahs\n.5 buey/bubk X1\n");
    bench.files.put("colours.json", test::read_file("data/demo/broken/colour-changes.json"));
    bench.files.put("loom.kbl", test::read_file("data/demo/trailer.kbl"));
    bench.files.put("loom.csv", test::read_file("tests/data/wires/trailer.csv"));
    const auto draft = [&](std::vector<std::string> words, int code) {
        words.insert(words.begin(), {"draft", "--json"});
        CHECK(bench.run(words) == code);
        json document = json::parse(bench.out.str());
        require_valid(document, "draft");
        return document;
    };
    const json sheet = draft({"minibus.wires", "-o", "made.json"}, cli::Exit::fine);
    CHECK(sheet["written"] == "made.json");
    CHECK(sheet["source"] == "minibus.wires");
    CHECK_FALSE(sheet["assumed"].empty());
    CHECK(bench.files.exists("made.json"));
    CHECK(draft({"--from", "minibus.json"}, cli::Exit::fine)["written"] == "");
    CHECK_FALSE(draft({"--from", "colours.json"}, cli::Exit::findings)["left_out"].empty());
    const json bad = draft({"bad.wires", "-o", "none.json"}, cli::Exit::unusable);
    CHECK(bad["findings"].size() >= 2);
    CHECK_FALSE(bench.files.exists("none.json"));
    const json lamp = draft({"loom.kbl", "--network", "rear=LAMP_L", "-o", "lamp.json"}, cli::Exit::fine);
    CHECK(lamp["written"] == "lamp.json");
    CHECK_FALSE(lamp["left_out"].empty());
    CHECK_FALSE(draft({"loom.csv", "--network", "GND"}, cli::Exit::findings)["findings"].empty());
}

TEST_CASE("what review tells of a folder as data holds to its schema, and its text fits forty columns",
          "[long]") {
    Bench bench;
    for (const char* name : {"forestry-slew-loom", "minibus-lift-silent", "minibus-two-faults"})
        bench.files.put("jobs/" + std::string(name) + ".job",
                        test::read_file("data/demo/jobs/" + std::string(name) + ".job"));
    const json sound = bench.output({"review", "jobs", "--json"});
    require_valid(sound, "review-shop");
    CHECK(sound["jobs"].size() == 3);
    CHECK(sound["causes"] == 4);
    CHECK(sound["unread"].empty());
    bench.files.put("jobs/foreign.job", "not a log\n");
    bench.files.put("jobs/quote.job", "{\"a\": \"b,c\"}\n");
    CHECK(bench.run({"review", "jobs", "--json", "-j", "2"}) == cli::Exit::unusable);
    const json mixed = json::parse(bench.out.str());
    require_valid(mixed, "review-shop");
    CHECK(mixed["unread"].size() == 2);
    CHECK(mixed["kinds"] == sound["kinds"]);
    bench.run({"review", "jobs", "--columns", "40"});
    std::istringstream lines(bench.out.str());
    for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 40);
    bench.run({"review", "jobs", "--csv"});
    const std::string rows = bench.out.str();
    CHECK(std::count(rows.begin(), rows.end(), '\n') == 6);
    CHECK(bench.run({"review", "jobs/none*.job", "--csv"}) == cli::Exit::unusable);
}

TEST_CASE("the saved jobs of the demo are whole, and each line holds to the schema of the log") {
    std::size_t jobs = 0;
    for (const auto& entry : std::filesystem::directory_iterator(test::path_of("data/demo/jobs"))) {
        const std::string text = test::read_file("data/demo/jobs/" + entry.path().filename().string());
        INFO(entry.path().filename().string());
        REQUIRE_FALSE(job::read_log(text, "job").torn);
        std::istringstream lines(text);
        std::string line;
        while (std::getline(lines, line)) require_valid(json::parse(line), "job-record");
        ++jobs;
    }
    REQUIRE(jobs >= 3);
}

TEST_CASE("asking again in the same state hands back the same advice and writes nothing") {
    Bench bench;
    const json first = bench.output({"next", "small.json", "--job", "a.job", "--json"});
    const std::string log = bench.files.text_of("a.job");
    REQUIRE(bench.output({"next", "small.json", "--job", "a.job", "--json"}) == first);
    REQUIRE(bench.files.text_of("a.job") == log);
}

TEST_CASE("a job goes on with its own harness when the file has changed") {
    Bench bench;
    bench.run({"note", "small.json", "--job", "a.job", "intake", "complaint=seat dead"});
    std::string changed = test::read_file("tests/data/small_chain.json");
    changed.replace(changed.find("Small chain"), 11, "Other chain");
    bench.files.put("small.json", changed);
    REQUIRE(bench.run({"next", "small.json", "--job", "a.job"}) == cli::Exit::fine);
    REQUIRE(bench.err.str().find("has changed since this job was opened") != std::string::npos);
    REQUIRE(bench.output({"review", "a.job", "--json"}).dump().find("Other chain") == std::string::npos);
}

TEST_CASE("no line of help is wider than 80 columns, and the words of an option stand under one another") {
    Bench bench;
    for (const char* command : {"hunt", "next", "note", "review", "check", "survey", "expect", "rehearse",
                                "card", "draft", "draw"}) {
        INFO(command);
        REQUIRE(bench.run({command, "--help"}) == 0);
        std::istringstream lines(bench.out.str());
        for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80);
    }
    bench.run({"note", "--help"});
    CHECK(bench.out.str().find(
              "prompt of hunt (see\n                              docs/reference/job-format.md)") !=
          std::string::npos);
}
