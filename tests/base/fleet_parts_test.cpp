// What `check` of many files is made of, piece by piece.
#include "halfsplit/base/files.hpp"
#include "halfsplit/base/schema.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/text_edit.hpp"
#include "halfsplit/harness/read.hpp"

#include <nlohmann/json.hpp>

#include "base/compiled_schema.hpp"
#include "base/glob.hpp"
#include "base/parallel.hpp"
#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/random_harness.hpp"
#include "support/temporary_folder.hpp"

#include <filesystem>
#include <fstream>
#include <stdexcept>

using namespace halfsplit;
using nlohmann::json;

TEST_CASE("a pattern stands for names as in a shell") {
    for (const auto& [pattern, name] :
         std::vector<std::pair<std::string, std::string>>{{"*.json", "van.json"},
                                                          {"v?n", "v\u00e4n"},
                                                          {"[a-c]x", "bx"},
                                                          {"[!a-c]x", "dx"},
                                                          {"[]]", "]"},
                                                          {"a*b*c", "a__b_b_c"},
                                                          {".x*", ".xy"},
                                                          {"[a", "[a"},
                                                          {"**", "x"},
                                                          {"", ""}})
        CHECK(matches(pattern, name));
    for (const auto& [pattern, name] : std::vector<std::pair<std::string, std::string>>{{"*.json", "van.jso"},
                                                                                        {"*", ".hidden"},
                                                                                        {"?x", ".x"},
                                                                                        {"[a-c]x", "dx"},
                                                                                        {"a*b", "a_b_"},
                                                                                        {"a", "aa"}})
        CHECK_FALSE(matches(pattern, name));
    CHECK(matches(std::string(200, '*') + "b", std::string(5000, 'a') + "b"));
}

TEST_CASE("only what can be nothing else is a certain name") {
    const std::vector<std::string> known{"kick", "seat", "trim", "M1", "M2", "X11", "lower_a", "lower_b"};
    CHECK(certain_name("kik", known) == "kick");
    CHECK(certain_name("SEAT", known) == "seat");
    CHECK(certain_name("tirm", known) == "trim");
    CHECK(certain_name("M3", known).empty());  // which of the two?
    CHECK(certain_name("X1", known).empty());  // a number is no slip
    CHECK(certain_name("X12", known).empty());
    CHECK(certain_name("lower_c", known).empty());
    CHECK(certain_name("cick_x", known).empty());
}

TEST_CASE("edits change their places and nothing else, and the difference says so") {
    const std::string text = "one\ntwo\nthree\nfour\nfive\nsix\nseven\neight\nnine\nten";
    const std::vector<Edit> edits{{4, 3, "2"}, {text.size() - 3, 3, "10"}};
    CHECK(edited(text, edits) == "one\n2\nthree\nfour\nfive\nsix\nseven\neight\nnine\n10");
    // As `diff -u` of GNU diffutils 3.8 shows these two texts.
    CHECK(unified_difference("f", text, edits) ==
          "--- f\n+++ f\n@@ -1,5 +1,5 @@\n one\n-two\n+2\n three\n four\n five\n@@ -7,4 +7,4 @@\n seven\n "
          "eight\n "
          "nine\n-ten\n\\ No newline at end of file\n+10\n\\ No newline at end of file\n");
    CHECK(unified_difference("f", text, {}).empty());
    CHECK(in_order({{5, 2, "b"}, {1, 5, "a"}}) == std::vector<Edit>{{1, 5, "a"}});
}

TEST_CASE("an entry goes with its comma, wherever it stands") {
    const auto without = [](const std::string& text, std::size_t column) {
        Finding finding;
        finding.location = {"f", 1, column};
        finding.mend.kind = Mend::Kind::Delete;
        return edited(text, {*edit_of(finding, text, Lines(text))});
    };
    CHECK(without(R"(["a", "b", "c"])", 7) == R"(["a", "c"])");
    CHECK(without(R"(["a", "b"])", 2) == R"(["b"])");
    CHECK(without(R"(["a"])", 2) == "[]");
}

TEST_CASE("threads do each piece of work once, and hand on what goes wrong") {
    for (const std::size_t threads : {0U, 1U, 3U, 50U}) {
        std::vector<int> done(200);
        for_each_index(done.size(), threads, [&](std::size_t index) { ++done[index]; });
        CHECK(done == std::vector<int>(200, 1));
        CHECK_THROWS_AS(for_each_index(9, threads,
                                       [](std::size_t index) {
                                           if (index == 4) throw std::runtime_error("four");
                                       }),
                        std::runtime_error);
    }
}

TEST_CASE("the quick yes of a schema is never given to what the full validator refuses") {
    const json schema = json::parse(schema_text("harness"));
    const CompiledSchema& quick = compiled_schema("harness");
    std::size_t accepted = 0;
    for (const char* name : {"minibus", "forestry", "notes"}) {
        INFO(name);
        std::string whole;  // with what it includes
        const std::string path = test::path_of(std::string("data/demo/") + name + ".json");
        REQUIRE(harness::read_harness_file(system_files(), path, &whole).harness);
        CHECK(quick.surely_accepts(json::parse(whole)));
    }
    const json sound = json::parse(test::random_harness_json(3));
    REQUIRE(quick.surely_accepts(sound));
    std::vector<json::json_pointer> places;
    const json flat = sound.flatten();
    for (const auto& entry : flat.items()) places.emplace_back(entry.key());
    test::Random random(1);
    const std::vector<json> others{
        nullptr, true, -1, 0.5, 1e9, "", "x", std::string(3000, 'x'), json::array(), json::object()};
    for (int i = 0; i < 150; ++i) {
        json changed = sound;
        json::json_pointer place = places[random.next() % places.size()];
        if (random.next() % 3 == 0 && !place.empty()) place = place.parent_pointer();
        if (random.next() % 4 == 0 && changed[place].is_object())
            changed[place]["other"] = 1;
        else
            changed[place] = others[random.next() % others.size()];
        if (!quick.surely_accepts(changed)) continue;
        ++accepted;
        CHECK(validate_against(schema, changed).empty());
    }
    CHECK(accepted > 5);
    CHECK(accepted < 100);
}

TEST_CASE("a folder is listed in order, links to folders are no folders", "[posix]") {
    namespace fs = std::filesystem;
    const test::TemporaryFolder folder;
    fs::create_directory(folder / "b");
    std::ofstream(folder / "c") << "x";
    std::ofstream(folder / ".a") << "x";
    fs::create_directory_symlink(folder.path(), folder / "round");
    fs::create_symlink(folder / "c", folder / "same");
    fs::create_symlink(folder / "nowhere", folder / "lost");
    using Kind = FolderEntry::Kind;
    std::vector<std::pair<std::string, Kind>> found;
    for (const FolderEntry& entry : system_files().list(folder.path().string()))
        found.emplace_back(entry.name, entry.kind);
    CHECK(found == std::vector<std::pair<std::string, Kind>>{{".a", Kind::File},
                                                             {"b", Kind::Folder},
                                                             {"c", Kind::File},
                                                             {"lost", Kind::Other},
                                                             {"round", Kind::Other},
                                                             {"same", Kind::File}});
    CHECK(system_files().is_folder(folder / "b"));
    CHECK_FALSE(system_files().is_folder(folder / "c"));
    CHECK_THROWS_AS(system_files().list(folder / "nowhere"), FileError);
}
