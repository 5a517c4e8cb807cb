// Libraries of places and covers that a harness file includes.
#include "halfsplit/base/files.hpp"
#include "halfsplit/harness/read.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"

#include <filesystem>
#include <fstream>

using namespace halfsplit;
using nlohmann::json;

namespace {

json cover(const std::string& id, double off) {
    return {{"id", id}, {"off_minutes", off}, {"on_minutes", 1}};
}

json library() {
    return {{"format", "halfsplit-library"}, {"version", 1}};
}

// A harness with nothing but a bus that needs no terminators, and what it includes.
json including(const std::vector<std::string>& paths) {
    return {{"format", "halfsplit-harness"},
            {"version", 1},
            {"include", paths},
            {"networks", {{{"id", "m"}, {"kind", "other"}}}}};
}

struct Shelf {
    test::FakeFiles files;

    void put(const std::string& path, const json& content) { files.put(path, content.dump(1)); }
    harness::ReadResult read(bool outside = false, std::string* text = nullptr) {
        return harness::read_harness_file(files, "fleet/van.json", text, {outside});
    }
    // The only finding, an error.
    Finding refusal(bool outside = false) {
        const auto result = read(outside);
        REQUIRE_FALSE(result.harness);
        INFO(to_text(result.findings));
        REQUIRE(result.findings.size() == 1);
        return result.findings.front();
    }
};

}  // namespace

TEST_CASE("a harness needs only the names of a library's places and covers") {
    Shelf shelf;
    json van = library();
    van["title"] = "van";
    van["source"] = "common practice";
    van["places"] = {{{"id", "front"}}, {{"id", "rear"}}};
    van["travel"] = {{"default_minutes", 4}, {"pairs", {{{"between", {"front", "rear"}}, {"minutes", 7}}}}};
    van["covers"] = {cover("lid", 3), cover("tray", 9)};
    shelf.put("fleet/library/van.json", van);
    json own = including({"library/van.json"});
    own["places"] = {{{"id", "roof"}}};
    own["covers"] =
        json::array({cover("tray", 20)});  // in braces alone it is the cover itself for some compilers
    shelf.put("fleet/van.json", own);

    std::string text;
    const auto result = shelf.read(false, &text);
    INFO(to_text(result.findings));
    REQUIRE(result.harness);
    const harness::Harness& harness = *result.harness;
    CHECK(harness.places.size() == 3);
    CHECK(harness.covers.size() == 2);
    CHECK(harness.covers[find_cover(harness, "lid")].off_minutes == 3);
    CHECK(harness.covers[find_cover(harness, "tray")].off_minutes == 20);  // its own goes before
    const auto front = find_place(harness, "front");
    CHECK(harness.travel.minutes[front * 3 + find_place(harness, "rear")] == 7);
    CHECK(harness.travel.minutes[front * 3 + find_place(harness, "roof")] == 4);
    REQUIRE(harness.libraries.size() == 1);
    CHECK(harness.libraries[0].source == "common practice");

    // What a job keeps is the same harness, and includes nothing any more.
    const auto alone = harness::read_harness(text, "job");
    REQUIRE(alone.harness);
    CHECK(alone.harness->covers.size() == 2);
    CHECK(alone.harness->libraries[0].title == "van");
    CHECK(json::parse(text).count("include") == 0);
}

TEST_CASE("a finding in a library names the library and its line") {
    Shelf shelf;
    json van = library();
    van["places"] = {{{"id", "front"}}};
    van["covers"] = {cover("lid", 3),
                     {{"id", "tray"}, {"off_minutes", 1}, {"on_minutes", 1}, {"under", {"lit"}}}};
    shelf.put("fleet/library/van.json", van);
    json own = including({"library/van.json"});
    own["start"] = "frond";
    shelf.put("fleet/van.json", own);
    const auto result = shelf.read();
    REQUIRE(result.findings.size() == 2);
    CHECK(result.findings[0].location.file == "fleet/van.json");
    CHECK(result.findings[0].nearest == "front");
    CHECK(result.findings[0].source_line == "\"start\": \"frond\",");
    CHECK(result.findings[1].location.file == "fleet/library/van.json");
    CHECK(result.findings[1].nearest == "lid");
    CHECK(result.findings[1].source_line == "\"lit\"");
}

TEST_CASE("an id that two libraries have is told with both places") {
    Shelf shelf;
    for (const char* path : {"fleet/a.json", "fleet/b.json"}) {
        json one = library();
        one["places"] = {{{"id", "front"}}};
        shelf.put(path, one);
    }
    shelf.put("fleet/van.json", including({"a.json", "b.json"}));
    const Finding finding = shelf.refusal();
    CHECK(finding.id == "duplicate-id");
    CHECK(finding.location.file == "fleet/b.json");
    CHECK(finding.message.find("fleet/a.json:") != std::string::npos);
}

TEST_CASE("libraries include libraries, each is read once, and a loop is an error") {
    Shelf shelf;
    json base = library();
    base["places"] = {{{"id", "front"}}};
    shelf.put("fleet/parts/base.json", base);
    json one = library();
    one["include"] = {"base.json"};
    shelf.put("fleet/parts/one.json", one);
    shelf.put("fleet/parts/two.json", one);
    shelf.put("fleet/van.json", including({"parts/one.json", "parts/two.json"}));
    const auto result = shelf.read();
    INFO(to_text(result.findings));
    REQUIRE(result.harness);
    CHECK(result.harness->places.size() == 1);

    base["include"] = {"two.json"};
    shelf.put("fleet/parts/base.json", base);
    const Finding loop = shelf.refusal();
    CHECK(loop.id == "include-loop");
    CHECK(loop.source_line.find(".json") != std::string::npos);
}

TEST_CASE("a chain of libraries without end is refused") {
    Shelf shelf;
    for (int i = 0; i < 40; ++i) {
        json one = library();
        one["include"] = {std::to_string(i + 1) + ".json"};
        shelf.put("fleet/" + std::to_string(i) + ".json", one);
    }
    shelf.put("fleet/van.json", including({"0.json"}));
    CHECK(shelf.refusal().id == "include-loop");
}

TEST_CASE("a library outside the folder is refused unless it is asked for") {
    Shelf shelf;
    json van = library();
    van["places"] = {{{"id", "front"}}};
    shelf.put("shared/van.json", van);
    for (const std::string path :
         {"../shared/van.json", "/shared/van.json", "library/../../shared/van.json"}) {
        shelf.put("fleet/van.json", including({path}));
        INFO(path);
        CHECK(shelf.refusal().id == "include-outside");
        if (path.front() != '/') CHECK(shelf.read(true).harness);
    }
    shelf.put("fleet/van.json", including({"library/../../fleet/inner.json"}));  // comes back
    shelf.put("fleet/inner.json", van);
    CHECK(shelf.read().harness);
}

TEST_CASE("what is no library is refused at the include") {
    Shelf shelf;
    shelf.put("fleet/van.json", including({"missing.json"}));
    CHECK(shelf.refusal().id == "file-missing");
    CHECK(shelf.refusal().nearest.empty());
    shelf.put("fleet/mising.json", library());
    CHECK(shelf.refusal().nearest == "fleet/mising.json");
    shelf.put("fleet/other.json", including({}));
    shelf.put("fleet/van.json", including({"other.json"}));
    CHECK(shelf.refusal().id == "not-a-library");
    CHECK(shelf.refusal().source_line == "\"other.json\"");
    shelf.files.put("fleet/broken.json", "{\n\"format\": \"halfsplit-library\"\n\"version\": 1 }");
    shelf.put("fleet/van.json", including({"broken.json"}));
    const Finding syntax = shelf.refusal();
    CHECK(syntax.id == "json-syntax");
    CHECK(syntax.location.file == "fleet/broken.json");
    CHECK(syntax.location.line == 3);
}

TEST_CASE("an include of the wrong type is the schema's business") {
    Shelf shelf;
    json own = including({});
    own["places"] = {{{"id", "front"}}};
    for (const json& wrong : {json("library.json"), json(3), json::array({3}), json::object()}) {
        own["include"] = wrong;
        shelf.put("fleet/van.json", own);
        INFO(wrong.dump());
        CHECK(shelf.refusal().id == "wrong-type");
    }
}

TEST_CASE("a text that stands alone includes nothing") {
    const auto result = harness::read_harness(including({"library/van.json"}).dump(), "stored");
    REQUIRE(result.findings.size() == 1);
    CHECK(result.findings.front().id == "include-outside");
}

TEST_CASE("a link does not lead out of the folder", "[posix]") {
    namespace fs = std::filesystem;
    const fs::path folder = fs::temp_directory_path() / "halfsplit-include-test";
    fs::remove_all(folder);
    fs::create_directories(folder / "fleet");
    json van = library();
    van["places"] = {{{"id", "front"}}};
    std::ofstream(folder / "outside.json") << van;
    std::ofstream(folder / "fleet" / "van.json") << including({"link.json"});
    fs::create_symlink(folder / "outside.json", folder / "fleet" / "link.json");
    const std::string path = (folder / "fleet" / "van.json").string();
    const auto result = harness::read_harness_file(system_files(), path);
    REQUIRE(result.findings.size() == 1);
    CHECK(result.findings.front().id == "include-outside");
    CHECK(harness::read_harness_file(system_files(), path, nullptr, {true}).harness);
    fs::remove_all(folder);
}

TEST_CASE("the demo libraries are sound, and their minutes say where they come from") {
    std::size_t libraries = 0;
    for (const auto& entry : std::filesystem::directory_iterator(test::path_of("data/demo/library"))) {
        test::FakeFiles files;
        const std::string name = entry.path().filename().string();
        files.put(name, test::read_file("data/demo/library/" + name));
        files.put("van.harness", including({name}).dump());
        const auto result = harness::read_harness_file(files, "van.harness");
        INFO(to_text(result.findings));
        REQUIRE(result.harness);
        CHECK(result.findings.empty());
        CHECK(result.harness->libraries.front().source.find("common practice") == 0);
        ++libraries;
    }
    CHECK(libraries == 3);
}
