// The real program on a disk that fails: calls that return errors (failing_calls_posix.cpp), a small disk
// that is full or may only be read, and memory that runs out. What it acknowledged is in the log, and the
// next one goes on.
#include "halfsplit/base/files.hpp"
#include "halfsplit/job/log.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/shell.hpp"
#include "support/temporary_folder.hpp"

#include <filesystem>
#include <fstream>
#include <regex>

using namespace halfsplit;
using namespace halfsplit::test;

namespace {

std::string program(const std::string& command, const std::string& job) {
    return std::string(HALFSPLIT_PROGRAM) + " " + command + " '" + path_of("tests/data/small_chain.json") +
           "' --job '" + job + "'";
}

// Up to where a reading is next.
void begin_job(const std::string& job) {
    const std::string note = program("note", job);
    const Ran ran = run_shell(note + " intake complaint=dead && " + note + " answers none && " + note +
                              " safe ignition=off bus=asleep battery=off waited=10");
    REQUIRE(ran.code == 0);
}

// "[12] Remark: ..." in a hunt, "  12  Remark: ..." of note.
std::vector<std::string> acknowledged(const std::string& said) {
    static const std::regex remark("[0-9]+[\\] ] Remark: (\\w+)");
    std::vector<std::string> words;
    for (std::sregex_iterator it(said.begin(), said.end(), remark), end; it != end; ++it)
        words.push_back((*it)[1].str());
    return words;
}

// The first word of each. Throws where a record is not whole.
std::vector<std::string> remarks_in(const std::string& job) {
    std::vector<std::string> words;
    for (const job::Record& record : job::read_log(system_files().read(job, 1U << 30U), job).records) {
        if (const auto* remark = std::get_if<job::Remark>(&record.event.body))
            words.push_back(remark->text.substr(0, remark->text.find(' ')));
    }
    return words;
}

// All that was acknowledged, in order, and at most one more.
void require_kept(const std::string& job, const std::string& said) {
    const auto told = acknowledged(said);
    const auto kept = remarks_in(job);
    REQUIRE(kept.size() >= told.size());
    REQUIRE(kept.size() <= told.size() + 1);
    REQUIRE(std::equal(told.begin(), told.end(), kept.begin()));
}

void require_goes_on(const std::string& job) {
    const auto before = remarks_in(job);
    const Ran ran = run_shell(program("note", job) + " remark afterwards");
    INFO(ran.out);
    REQUIRE(ran.code == 0);
    const auto after = remarks_in(job);
    REQUIRE(after.size() == before.size() + 1);
    REQUIRE(after.back() == "afterwards");
}

constexpr const char* remarks = "printf 'remark one\\nremark two\\nremark three\\n' | ";

}  // namespace

TEST_CASE("a disk whose calls fail loses nothing that a hunt acknowledged, and is told of") {
    const TemporaryFolder folder;
    begin_job(folder / "begun.job");
    const std::string failing =
        "env ASAN_OPTIONS=verify_asan_link_order=0 LD_PRELOAD=" HALFSPLIT_FAILING_CALLS " HALFSPLIT_FAILING=";
    std::size_t told = 0;
    std::size_t taken_at_once = 0;
    for (const std::string rule :
         {"write:1:5", "write:2:5", "write:3:122", "write:4:28", "write:2:0", "write:2:0,write:3:28",
          "write:3:4", "fdatasync:1:5", "fdatasync:2:5", "fdatasync:3:122", "fdatasync:4:28",
          "fdatasync:1:5:ever", "fdatasync:1:22:ever", "write:3:5,ftruncate:1:5",
          "write:3:5,ftruncate:1:5:ever", "write:2:0,write:3:5,ftruncate:1:5:ever",
          "fdatasync:3:5,ftruncate:1:30"}) {
        const std::string job = folder / "van.job";
        std::filesystem::copy_file(folder / "begun.job", job,
                                   std::filesystem::copy_options::overwrite_existing);
        const Ran ran = run_shell(remarks + failing + rule + " " + program("hunt", job));
        INFO(rule << " said: " << ran.out);
        const bool spoke = ran.out.find("halfsplit: cannot ") != std::string::npos;
        REQUIRE((ran.code == 2) == spoke);
        REQUIRE((spoke || acknowledged(ran.out).size() == 3));
        (spoke ? told : taken_at_once) += 1;
        if (rule == "fdatasync:1:22:ever") CHECK(ran.out.find("choose another place") != std::string::npos);
        // A half line that could not be cut off is the next one's torn tail.
        if (rule.find("ever") == std::string::npos) require_kept(job, ran.out);
        require_goes_on(job);
        for (const std::string& word : acknowledged(ran.out)) {
            const auto kept = remarks_in(job);
            REQUIRE(std::find(kept.begin(), kept.end(), word) != kept.end());
        }
    }
    CHECK(told >= 13);
    CHECK(taken_at_once >= 2);  // a short write is written on, an interrupted one again
}

TEST_CASE("on a small disk that is full, and on one that may only be read, a job stays whole") {
    // As root at once, otherwise as root of a user namespace; neither may be allowed in a container.
    std::string apart;
    for (const std::string way : {"unshare -m ", "unshare -rm "}) {
        if (apart.empty() && run_shell(way + "mount -t tmpfs -o size=4k none /mnt").code == 0) apart = way;
    }
    if (apart.empty()) {
        WARN("no file system can be mounted here: not tried");
        return;
    }
    const TemporaryFolder folder;
    std::filesystem::create_directory(folder / "disk");
    std::ofstream(folder / "session") << R"sh(
cd "$1" && mount -t tmpfs -o size=48k none disk || exit 9
padding=$(printf %01000d 0)
note() { "$2" note "$3" --job disk/van.job remark "$1" $padding; }
for i in $(seq 200); do note word$i "$2" "$3" || break; done
echo "full: code $?"
test $i -lt 200 || exit 8
cp disk/van.job full.job
mount -o remount,ro disk
note reading "$2" "$3" && exit 7
cmp disk/van.job full.job || exit 6
mount -o remount,rw,size=96k disk
note roomier "$2" "$3" || exit 5
cp disk/van.job van.job
)sh";
    const Ran ran = run_shell(apart + "bash '" + (folder / "session") + "' '" + folder.path().string() +
                              "' " + HALFSPLIT_PROGRAM + " '" + path_of("tests/data/small_chain.json") + "'");
    INFO(ran.out);
    REQUIRE(ran.code == 0);
    CHECK(ran.out.find("No space left on device. Make room on the disk") != std::string::npos);
    CHECK(ran.out.find("The disk can only be read: choose another place.") != std::string::npos);
    // The one that found no room was not acknowledged, and is not there.
    CHECK(acknowledged(ran.out) == remarks_in(folder / "van.job"));
    CHECK(acknowledged(ran.out).size() > 10);
}

#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)  // which take terabytes of addresses
TEST_CASE("memory that runs out at any moment loses nothing that was acknowledged") {
    const TemporaryFolder folder;
    const std::string job = folder / "van.job";
    begin_job(job);
    const auto run_within = [&](int kilobytes) {
        return run_shell("(ulimit -v " + std::to_string(kilobytes) + "; " + program("note", job) +
                         " remark at" + std::to_string(kilobytes) + ")");
    };
    // From where its libraries find room; before that the loader ends it.
    int kilobytes = 8000;
    while (run_within(kilobytes).out.find("halfsplit: ") != 0) REQUIRE((kilobytes += 100) < 100000);
    std::vector<std::string> told = remarks_in(job);
    REQUIRE(told.empty());
    std::size_t failed = 0;
    kilobytes -= 100;
    for (int i = 0; i < 100; ++i, kilobytes += 4) {
        const Ran ran = run_within(kilobytes);
        INFO(kilobytes << " kB said: " << ran.out);
        const auto now = acknowledged(ran.out);
        REQUIRE((ran.code == 0) == !now.empty());
        told.insert(told.end(), now.begin(), now.end());
        failed += ran.out.find("there is not enough memory") != std::string::npos ? 1 : 0;
        REQUIRE(remarks_in(job) == told);
    }
    CHECK(failed > 5);
    CHECK(told.size() > 5);
    require_goes_on(job);
}
#endif
