// `check` of many files: what is gathered, and what comes of it.
#include "halfsplit/base/documents.hpp"
#include "halfsplit/base/schema.hpp"
#include "halfsplit/cli/run.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/report/explanation.hpp"

#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"

#include <algorithm>
#include <filesystem>
#include <set>
#include <sstream>

using namespace halfsplit;
using nlohmann::json;

namespace {

std::string broken(const std::string& id) {
    return test::read_file("data/demo/broken/" + id + ".json");
}

struct Fleet {
    test::FakeFiles files;
    std::string out, err;

    Fleet() {
        files.put("fleet/b.json", test::read_file("data/demo/notes.json"));
        files.put("fleet/deep/c.json", broken("stub-too-long"));
        files.put("fleet/a.json", broken("unknown-member"));
        files.put("fleet/.hidden/x.json", "{");
        files.put("fleet/matrix.json", test::read_file("data/demo/matrix.json"));
        files.put("fleet/readme.txt", "no harness");
    }

    int check(std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), "check");
        return run(arguments);
    }

    int run(const std::vector<std::string>& arguments) {
        test::FakeClock clock;
        std::istringstream in;
        std::ostringstream said, complained;
        cli::PlainTerminal terminal(in, said, 80);
        cli::Context context{said, complained, files, clock, terminal};
        const int code = cli::run(arguments, context);
        out = said.str();
        err = complained.str();
        return code;
    }

    json data(std::vector<std::string> arguments) {
        arguments.insert(arguments.end(), {"--format", "json"});
        check(arguments);
        INFO(err);
        return json::parse(out);
    }

    std::vector<std::string> names(const std::vector<std::string>& arguments) {
        std::vector<std::string> result;
        const json document = data(arguments);
        for (const json& file : document["files"]) result.push_back(file["file"]);
        return result;
    }

    std::size_t count(const std::vector<std::string>& arguments, const std::string& id) {
        std::size_t found = 0;
        const json document = data(arguments);
        for (const json& file : document["files"]) {
            for (const json& finding : file["findings"]) found += finding["id"] == id ? 1 : 0;
        }
        return found;
    }
};

using Names = std::vector<std::string>;

bool valid_sarif(const json& document) {
    const json schema = json::parse(test::read_file("tests/data/sarif-2.1.0-rtm.5.schema.json"));
    valijson::Schema rules;
    valijson::SchemaParser(valijson::SchemaParser::kDraft4)
        .populateSchema(valijson::adapters::NlohmannJsonAdapter(schema), rules);
    valijson::Validator validator(valijson::Validator::kStrongTypes);
    return validator.validate(rules, valijson::adapters::NlohmannJsonAdapter(document), nullptr);
}

}  // namespace

TEST_CASE("a folder is gone through to the bottom, in order, without what is hidden or no harness") {
    Fleet fleet;
    REQUIRE(fleet.names({"fleet"}) == Names{"fleet/a.json", "fleet/b.json", "fleet/deep/c.json"});
    REQUIRE(fleet.data({"fleet"})["passed_over"] == json{"fleet/matrix.json"});
    REQUIRE(fleet.check({"fleet"}) == cli::Exit::findings);
    REQUIRE(fleet.out.find("1 passed over, no harness") != std::string::npos);
    REQUIRE(fleet.names({"fleet/deep/", "./fleet"}) ==
            Names{"fleet/deep/c.json", "fleet/a.json", "fleet/b.json"});
}

TEST_CASE("patterns that no shell has expanded are") {
    Fleet fleet;
    REQUIRE(fleet.names({"fleet/[a-b].json"}) == Names{"fleet/a.json", "fleet/b.json"});
    REQUIRE(fleet.names({"fleet/**/?.json"}) == Names{"fleet/a.json", "fleet/b.json", "fleet/deep/c.json"});
    REQUIRE(fleet.names({"fl*/b.json"}) == Names{"fleet/b.json"});
    REQUIRE(fleet.check({"fleet/van*.json"}) == cli::Exit::unusable);
    REQUIRE(fleet.out.find(test::read_file("tests/data/findings/no-match.txt")) == 0);
    fleet.files.put("fleet/[a].json", test::read_file("data/demo/notes.json"));
    REQUIRE(fleet.names({"fleet/[a].json"}) == Names{"fleet/[a].json"});
}

TEST_CASE("paths come from a list and a text from standard input, once") {
    Fleet fleet;
    fleet.files.put("list.txt", "fleet/b.json\r\n\nfleet/a.json\n");
    REQUIRE(fleet.names({"--list", "list.txt"}) == Names{"fleet/b.json", "fleet/a.json"});
    fleet.files.input = "fleet/a.json\n";
    REQUIRE(fleet.names({"--list", "-"}) == Names{"fleet/a.json"});
    fleet.files.input = broken("unknown-colour");
    REQUIRE(fleet.check({"-"}) == cli::Exit::findings);
    REQUIRE(fleet.out.find("standard input:41:52: error") == 0);
    REQUIRE(fleet.check({"-", "--list", "-"}) == cli::Exit::unusable);
}

TEST_CASE("a folder without rights or without a harness is told, and the other files are checked") {
    Fleet fleet;
    fleet.files.lock_folder("fleet/deep");
    REQUIRE(fleet.check({"fleet"}) == cli::Exit::unusable);
    REQUIRE(fleet.out.find("[folder-unreadable]") != std::string::npos);
    REQUIRE(fleet.out.find("fleet/b.json: sound") != std::string::npos);
    fleet.files.put("others/matrix.json", test::read_file("data/demo/matrix.json"));
    fleet.files.put("texts/readme.txt", "");
    for (const std::string folder : {"others", "texts"}) {
        REQUIRE(fleet.check({folder, "fleet/b.json"}) == cli::Exit::unusable);
        REQUIRE(fleet.out.find(folder + ": error: there is no harness file in this folder") !=
                std::string::npos);
    }
}

TEST_CASE("a file of another format is an error when it is named") {
    Fleet fleet;
    REQUIRE(fleet.check({"fleet/matrix.json"}) == cli::Exit::findings);
    REQUIRE(fleet.out.find("this is a table of faults against tests, not a harness [other-format]") !=
            std::string::npos);
    REQUIRE(fleet.count({"fleet/matrix.json"}, "other-format") == 1);
}

TEST_CASE("any number of threads says the same, to the byte") {
    Fleet fleet;
    for (int i = 0; i < 20; ++i)
        fleet.files.put("many/" + std::to_string(i) + ".json", broken("lines-alike"));
    for (const std::string format : {"text", "json", "sarif"}) {
        fleet.check({"fleet", "many", "-j", "1", "--notes", "--format", format});
        const std::string one = fleet.out;
        fleet.check({"fleet", "many", "-j", "7", "--notes", "--format", format});
        REQUIRE(fleet.out == one);
    }
}

TEST_CASE("what check says as data holds to its schema, and as SARIF to the published one") {
    Fleet fleet;
    fleet.files.put("fl\u00e4che #1/x y.json", broken("unknown-colour"));
    fleet.files.put("known.json", R"({"format": "halfsplit-baseline", "version": 1, "findings": []})");
    std::vector<std::string> arguments{"fleet",   "fl\u00e4che #1", "nowhere.json",
                                       "--notes", "--baseline",     "known.json"};
    REQUIRE(validate(fleet.data(arguments), "check").empty());
    for (const auto& entry : std::filesystem::directory_iterator(test::path_of("data/demo/broken"))) {
        fleet.files.put(entry.path().filename().string(),
                        test::read_file("data/demo/broken/" + entry.path().filename().string()));
        arguments.push_back(entry.path().filename().string());
    }
    arguments.insert(arguments.end(), {"--format", "sarif"});
    REQUIRE(fleet.check(arguments) == cli::Exit::unusable);
    json sarif = json::parse(fleet.out);
    REQUIRE(valid_sarif(sarif));
    const json& run = sarif["runs"][0];
    REQUIRE(run["columnKind"] == "unicodeCodePoints");
    std::size_t fixes = 0;
    bool encoded = false;
    for (const json& result : run["results"]) {
        REQUIRE(run["tool"]["driver"]["rules"][result["ruleIndex"].get<std::size_t>()]["id"] ==
                result["ruleId"]);
        REQUIRE(result["baselineState"] == "new");
        REQUIRE(result["partialFingerprints"]["finding/v1"].get<std::string>().size() == 16);
        fixes += result.contains("fixes") ? 1 : 0;
        encoded = encoded || result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] ==
                                 "fl%C3%A4che%20%231/x%20y.json";
    }
    REQUIRE(fixes >= 6);
    REQUIRE(encoded);
    sarif["runs"][0]["results"][0]["level"] = "fatal";  // the schema does refuse
    REQUIRE_FALSE(valid_sarif(sarif));
}

TEST_CASE("only what the baseline does not know fails, wherever lines move to") {
    Fleet fleet;
    REQUIRE(fleet.check({"fleet", "--write-baseline", "known.json"}) == cli::Exit::fine);
    REQUIRE(validate(json::parse(fleet.files.text_of("known.json")), "baseline").empty());
    REQUIRE(fleet.check({"fleet", "--baseline", "known.json"}) == cli::Exit::fine);
    REQUIRE(fleet.out.find("of the baseline 2 known, 0 mended") != std::string::npos);
    fleet.files.put("fleet/a.json", "\n\n\n" + broken("unknown-member"));
    REQUIRE(fleet.check({"fleet", "--baseline", "known.json"}) == cli::Exit::fine);
    fleet.files.put("fleet/deep/c.json", broken("lines-alike"));
    REQUIRE(fleet.check({"fleet", "--baseline", "known.json"}) == cli::Exit::findings);
    REQUIRE(fleet.out.find("of the baseline 1 known, 1 mended") != std::string::npos);
    REQUIRE(fleet.check({"fleet", "gone.json", "--baseline", "known.json"}) == cli::Exit::unusable);
    fleet.files.put("known.json", "[]");
    REQUIRE(fleet.check({"fleet", "--baseline", "known.json"}) == cli::Exit::unusable);
    REQUIRE(fleet.err.find("known.json:1:1: error") == 0);
    REQUIRE(fleet.check({"fleet", "--baseline", "knwon.json"}) == cli::Exit::unusable);
    REQUIRE(fleet.err.find("Nearest known name: \"known.json\"") != std::string::npos);
}

TEST_CASE("severities can be set, and a file with errors stays unusable whatever they are called") {
    Fleet fleet;
    const std::string warning = "fleet/deep/c.json", error = "fleet/a.json";
    REQUIRE(fleet.check({warning, "--severity", "stub-too-long=error"}) == cli::Exit::findings);
    REQUIRE(fleet.out.find("1 with errors") != std::string::npos);
    REQUIRE(fleet.check({warning, "--severity", "stub-too-long=off"}) == cli::Exit::fine);
    REQUIRE(fleet.check({warning, "--severity", "stub-too-long=note"}) == cli::Exit::fine);
    REQUIRE(fleet.check({"--severity", "unknown-member=warning", error}) == cli::Exit::findings);
    REQUIRE_FALSE(fleet.data({"--severity", "unknown-member=off", error})["files"][0]["sound"].get<bool>());
    fleet.check({"--severity", "unknown-member=off", error});
    REQUIRE(fleet.out.find("nothing but what is switched off; it cannot be used") != std::string::npos);
    fleet.files.put("set.json", R"({"format": "halfsplit-check-settings", "version": 1,
        "severity": {"stub-too-long": "off", "unknown-member": "note"}})");
    REQUIRE(fleet.check({"fleet", "--settings", "set.json"}) == cli::Exit::fine);
    REQUIRE(fleet.check({"fleet", "--settings", "set.json", "--severity", "stub-too-long=warning"}) ==
            cli::Exit::findings);
    REQUIRE(fleet.check({"fleet", "--severity", "stub-to-long=off"}) == cli::Exit::unusable);
    REQUIRE(fleet.err.find("Nearest known name: \"stub-too-long\"") != std::string::npos);
    REQUIRE(fleet.check({"fleet", "--severity", "sheet-word=off"}) == cli::Exit::unusable);
    REQUIRE(fleet.check({"fleet", "--severity", "stub-too-long=of"}) == cli::Exit::unusable);
}

TEST_CASE("every finding of check is explained, with an example that is one of it") {
    std::set<std::string> met;
    for (const report::Explanation& one : report::explanations()) {
        INFO(one.id);
        Fleet fleet;
        REQUIRE(fleet.check({"--explain", one.id}) == cli::Exit::fine);
        REQUIRE(fleet.out.find("How to mend it") != std::string::npos);
        if (!one.of_check()) continue;
        met.insert(one.id);
        for (const std::string& words : {one.severity, one.meaning, one.why, one.mend})
            REQUIRE(words.size() > 3);
        // No document of ours can bring it about: it is for keywords that only a later schema has.
        if (one.id != "schema-mismatch") REQUIRE(one.example.find('[' + one.id + ']') != std::string::npos);
        REQUIRE(fleet.out.find(one.example.substr(0, one.example.find('\n'))) != std::string::npos);
    }
    REQUIRE(met.size() > 50);
    for (const auto& entry : std::filesystem::directory_iterator(test::path_of("tests/data/findings")))
        REQUIRE(met.contains(entry.path().stem().string()));
    Fleet fleet;
    REQUIRE(fleet.check({"--explain", "terminator-cuont"}) == cli::Exit::unusable);
    REQUIRE(fleet.err.find("Nearest known name: \"terminator-count\"") != std::string::npos);
}

TEST_CASE("the notes of the example are those that are explained") {
    Fleet fleet;
    fleet.files.put("notes.json", test::read_file("data/demo/notes.json"));
    REQUIRE(fleet.check({"notes.json"}) == cli::Exit::fine);
    REQUIRE(fleet.out.find("note") == fleet.out.find("notes.json"));
    REQUIRE(fleet.check({"notes.json", "--notes"}) == cli::Exit::fine);
    for (const char* id : {"opens-when-unplugged", "look-alike-pairs", "nothing-in-front", "way-assumed",
                           "never-used", "unseen-fault"})
        REQUIRE(fleet.out.find(document_text(id)) != std::string::npos);
}

TEST_CASE("safe fixes leave a file cleaner, change nothing else, and are shown first") {
    std::size_t fixed = 0;
    for (const auto& entry : std::filesystem::directory_iterator(test::path_of("data/demo/broken"))) {
        const std::string id = entry.path().stem().string();
        INFO(id);
        Fleet fleet;
        fleet.files.put("van.json", broken(id));
        REQUIRE(fleet.check({"van.json", "--fix", "--dry-run"}) == cli::Exit::fine);
        REQUIRE(fleet.files.text_of("van.json") == broken(id));
        const std::string shown = fleet.out;
        REQUIRE(fleet.check({"van.json", "--fix"}) == cli::Exit::fine);
        REQUIRE(fleet.out == shown);
        if (shown.empty()) continue;
        ++fixed;
        const auto after = harness::read_harness(fleet.files.text_of("van.json"), "van.json");
        REQUIRE(after.harness);
        REQUIRE(after.findings.empty());
        std::size_t changed = 0;
        std::istringstream lines(shown);
        for (std::string line; std::getline(lines, line);)
            changed += line.rfind("+", 0) == 0 && line.rfind("+++", 0) != 0 ? 1 : 0;
        REQUIRE(changed == 1);
    }
    REQUIRE(fixed == 6);
}

TEST_CASE("of several fixes those that would make another error are left out") {
    Fleet fleet;
    std::string text = broken("lines-alike");
    const auto put = [&](const std::string& from, const std::string& to) {
        const auto at = text.find(from);
        REQUIRE(at != std::string::npos);
        text.replace(at, from.size(), to);
    };
    put("\"under\": [\"seat\"]", "\"under\": [\"tirm\"]");  // mended, the trim would be under itself
    put("\"covers\": [\"kick\"]", "\"covers\": [\"kik\"]");
    fleet.files.put("van.json", text);
    REQUIRE(fleet.check({"van.json"}) == cli::Exit::findings);
    REQUIRE(fleet.check({"van.json", "--fix"}) == cli::Exit::fine);
    const std::string after = fleet.files.text_of("van.json");
    REQUIRE(after.find("\"tirm\"") != std::string::npos);
    REQUIRE(after.find("\"kik\"") == std::string::npos);
    REQUIRE(after.size() == text.size() + 1);
}

TEST_CASE("a fix that cannot be written is told, and the file stays as it was") {
    Fleet fleet;
    const std::string before = fleet.files.text_of("fleet/a.json");
    fleet.files.fail_operation(test::Operation::Write, 0, 10);
    REQUIRE(fleet.check({"fleet/a.json", "--fix"}) == cli::Exit::unusable);
    REQUIRE(fleet.err.find("disk full") != std::string::npos);
    REQUIRE(fleet.files.text_of("fleet/a.json") == before);
}

TEST_CASE("a survey of many files has a row for each network, and the reason where there is none") {
    Fleet fleet;
    fleet.files = test::FakeFiles();
    fleet.files.put("designs/a, b.json", test::read_file("tests/data/small_chain.json"));
    fleet.files.put("designs/c.json", broken("unknown-member"));
    fleet.files.put("designs/matrix.json", test::read_file("data/demo/matrix.json"));
    REQUIRE(fleet.run({"survey", "designs", "--format", "csv"}) == cli::Exit::findings);
    std::istringstream lines(fleet.out);
    std::vector<std::string> rows;
    for (std::string line; std::getline(lines, line);) rows.push_back(line);
    REQUIRE(rows.size() == 3);
    REQUIRE(rows[0].rfind("file,network,parts,", 0) == 0);
    REQUIRE(rows[1].rfind("\"designs/a, b.json\",main,", 0) == 0);
    REQUIRE(rows[2] == "designs/c.json" + std::string(17, ',') +
                           "\"line 49: no member here is named \"\"lenght_m\"\" [unknown-member]\"");
    REQUIRE(fleet.run({"survey", "designs", "gone.json", "--format", "json", "-j", "3"}) ==
            cli::Exit::unusable);
    const json document = json::parse(fleet.out);
    REQUIRE(validate(document, "survey-rows").empty());
    REQUIRE(document["rows"].size() == 3);
    REQUIRE(document["rows"][0]["expected_minutes"].get<double>() > 0);
    REQUIRE(fleet.run({"survey", "designs/c.json", "designs/a, b.json"}) == cli::Exit::unusable);
    // The same figures as the survey of the one file.
    REQUIRE(fleet.run({"survey", "designs/a, b.json", "--json"}) == cli::Exit::fine);
    const json alone = json::parse(fleet.out)["networks"][0];
    REQUIRE(alone["quote"]["expected_minutes"] == document["rows"][0]["expected_minutes"]);
    REQUIRE(alone["quote"]["ninety_minutes"] == document["rows"][0]["ninety_minutes"]);
    REQUIRE(alone["quote"]["worst_minutes"] == document["rows"][0]["worst_minutes"]);
    REQUIRE(alone["groups"].size() == document["rows"][0]["ambiguity_groups"]);
}
