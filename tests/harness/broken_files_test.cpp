// Every file of data/demo/broken/ is named after the one finding it has; tests/data/findings/ holds that
// finding's text.
#include "halfsplit/harness/read.hpp"

#include "support/catch.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <string>

using namespace halfsplit;
namespace fs = std::filesystem;

namespace {

const fs::path root = HALFSPLIT_SOURCE_DIR;

std::string content(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    REQUIRE(in);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<fs::path> broken_files() {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(root / "data/demo/broken")) files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

std::set<std::string> first_groups(const std::string& text, const std::regex& pattern) {
    std::set<std::string> found;
    for (std::sregex_iterator it(text.begin(), text.end(), pattern); it != std::sregex_iterator(); ++it) {
        found.insert((*it)[1]);
    }
    return found;
}

// Every id that the sources give to a finding, by the ways they have of doing so.
std::set<std::string> ids_in_sources() {
    const std::regex call(
        R"re((?:error|warning|note|say|about_file|about_path|about_include)\(\s*"([a-z]+(?:-[a-z]+)+)")re");
    const std::regex member(R"re((?:\.id = |push_back\(\{)"([a-z]+(?:-[a-z]+)+)")re");
    std::set<std::string> ids;
    for (const char* folder : {"src/base", "src/harness", "src/cli/fleet"}) {
        for (const auto& entry : fs::directory_iterator(root / folder)) {
            const std::string text = content(entry.path());
            ids.merge(first_groups(text, call));
            ids.merge(first_groups(text, member));
        }
    }
    return ids;
}

std::set<std::string> documented_ids() {
    return first_groups(content(root / "docs/reference/findings.md"),
                        std::regex(R"re(\n\| `([a-z-]+)` \|)re"));
}

}  // namespace

TEST_CASE("each broken file has exactly the finding it is named after, with this very text") {
    for (const fs::path& path : broken_files()) {
        const std::string id = path.stem().string();
        const auto result = harness::read_harness(content(path), path.filename().string());
        INFO(id << '\n' << to_text(result.findings));
        REQUIRE(result.findings.size() == 1);
        CHECK(result.findings.front().id == id);
        CHECK_FALSE(result.findings.front().next_step.empty());
        CHECK(to_text(result.findings.front()) + '\n' ==
              content(root / "tests/data/findings" / (id + ".txt")));
        CHECK(result.harness.has_value() == (result.findings.front().severity == Severity::Warning));
    }
}

TEST_CASE("a broken file says that it is invented and broken on purpose") {
    for (const fs::path& path : broken_files()) {
        const std::string text = content(path);
        INFO(path.string());
        CHECK(text.find("Broken on purpose") != std::string::npos);
        CHECK(text.find("Invented. Sound but for one thing: ") != std::string::npos);
    }
}

TEST_CASE("the ids in the sources, in docs/reference/findings.md and of the broken files agree") {
    const std::set<std::string> sources = ids_in_sources();
    const std::set<std::string> documented = documented_ids();
    CHECK(sources.size() > 40);
    // About a file as a whole, too large to keep as an example, or nothing that a file of ours can bring
    // about.
    const std::set<std::string> without_file{
        "file-missing", "file-is-folder", "file-too-large", "file-unreadable", "json-size",
        "too-many-findings", "schema-mismatch", "folder-unreadable", "nothing-to-check", "no-match",
        "unknown-network", "difference-unknown", "include-outside", "include-loop", "not-a-library",
        // In data/demo/notes.json.
        "opens-when-unplugged", "look-alike-pairs", "nothing-in-front", "way-assumed", "never-used",
        "unseen-fault"};
    std::set<std::string> files = without_file;
    for (const fs::path& path : broken_files()) files.insert(path.stem().string());
    for (const std::string& id : sources) {
        INFO(id);
        CHECK(documented.count(id) == 1);
        CHECK(files.count(id) == 1);
    }
    for (const std::string& id : files) {
        INFO(id);
        CHECK(sources.count(id) == 1);
    }
}
