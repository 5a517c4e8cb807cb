// The limits of docs/reference/limits.md that no other test holds: input of every kind that is too large is
// refused with what to do, and nothing is changed.
#include "halfsplit/cli/run.hpp"
#include "halfsplit/draft/from_kbl.hpp"
#include "halfsplit/draft/from_loom.hpp"
#include "halfsplit/draft/wire_sheet.hpp"
#include "halfsplit/job/log.hpp"
#include "halfsplit/job/words.hpp"
#include "halfsplit/matrix/matrix.hpp"

#include "support/catch.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"
#include "support/program.hpp"
#include "support/small_chain.hpp"
#include "support/temporary_folder.hpp"

#include <filesystem>
#include <fstream>

using namespace halfsplit;

namespace {

namespace fs = std::filesystem;

bool holds(const std::vector<Finding>& findings, const std::string& id) {
    return std::any_of(findings.begin(), findings.end(),
                       [&](const Finding& finding) { return finding.id == id; });
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

// A file that is all zeros and takes no room.
void make_empty_file(const std::string& path, std::uint64_t bytes) {
    std::ofstream(path).close();
    fs::resize_file(path, bytes);
}

}  // namespace

TEST_CASE("a wire sheet of more than 4 MB is refused") {
    test::FakeFiles files;
    files.put("big.wires", std::string(draft::largest_sheet + 1, '\n'));
    const test::Said said = test::run_program({"draft", "big.wires", "-o", "big.json"}, files);
    CHECK(said.code == cli::Exit::unusable);
    CHECK(holds(said.err, "the wire sheet is larger than 4 MB [file-too-large]"));
    CHECK_FALSE(files.exists("big.json"));
}

TEST_CASE("a harness file, a job and wire data that are too large are refused unread") {
    const test::TemporaryFolder folder;
    make_empty_file(folder / "van.json", harness::largest_file + 1);
    make_empty_file(folder / "monday.job", job::largest_log + 1);
    CHECK(holds(test::run_program({"check", folder / "van.json"}, system_files()).out, "larger than 64 MB"));
    CHECK(holds(test::run_program({"draft", folder / "van.json"}, system_files()).err, "larger than 64 MB"));
    const test::Said review = test::run_program({"review", folder / "monday.job"}, system_files());
    CHECK(review.code == cli::Exit::unusable);
    CHECK(holds(review.err, "is larger than 268435456 bytes, the most that is read"));
    const test::Said hunt = test::run_program(
        {"hunt", test::path_of("tests/data/small_chain.json"), "--job", folder / "monday.job"},
        system_files());
    CHECK(hunt.code == cli::Exit::unusable);
    CHECK(holds(hunt.err, "is larger than 268435456 bytes, the most that is read"));
    CHECK(fs::file_size(folder / "monday.job") == job::largest_log + 1);
}

TEST_CASE("an entry of more than 10,000 bytes is refused") {
    job::State state;
    const auto entered = [&](std::size_t length) {
        return job::parse_event({"remark", std::string(length, 'x')}, test::small_chain(), state, {});
    };
    CHECK_NOTHROW(entered(job::most_entry - 7));  // "remark" and a blank
    try {
        entered(job::most_entry - 6);
        FAIL("taken");
    } catch (const InputError& error) {
        CHECK(error.findings().front().id == "event-too-long");
        CHECK(error.findings().front().message == "the entry has 10001 bytes");
    }
}

TEST_CASE("a harness list of more than four million elements is refused before it is taken apart", "[kbl]") {
    std::string text;
    for (int i = 0; i < 8'000'001; ++i) text += '<';
    const draft::LoomRead read = draft::read_kbl(text, "loom.kbl");
    CHECK_FALSE(read.loom);
    CHECK(holds(read.findings, "xml-size"));
}

TEST_CASE("libraries may include one another sixteen deep") {
    test::FakeFiles files;
    const auto library = [](const std::string& include) {
        return R"({"format": "halfsplit-library", "version": 1, "places": [], "covers": [], "include": [)" +
               include + "]}";
    };
    std::string harness = test::read_file("tests/data/small_chain.json");
    files.put("van.json", harness.insert(1, R"("include": ["l1.json"],)"));
    for (int i = 1; i < 20; ++i)
        files.put("l" + std::to_string(i) + ".json", library("\"l" + std::to_string(i + 1) + ".json\""));
    const test::Said said = test::run_program({"check", "van.json"}, files);
    CHECK(holds(said.out, "more than 16 libraries inside one another"));
}

TEST_CASE("a matrix may have two thousand tests and no more") {
    std::string text = R"({"priors": [1, 1], "tests": [)";
    for (int i = 0; i < 2001; ++i) text += std::string(i > 0 ? "," : "") + R"({"outcomes": [0, 1]})";
    const matrix::ReadResult read = matrix::read_matrix(text + "]}", "m.json");
    CHECK_FALSE(read.matrix);
    CHECK(holds(read.findings, "out-of-range"));
}
