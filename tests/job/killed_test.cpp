// The real process killed (SIGKILL, TerminateProcess) at random moments while it writes: what it acknowledged
// is in the log, what it did not is there whole or not at all, and the next one goes on. HALFSPLIT_KILLS sets
// how often; a power cut is another matter, and played with files in memory (log_test.cpp).
#include "halfsplit/base/files.hpp"
#include "halfsplit/job/log.hpp"

#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/files_of_tests.hpp"
#include "support/how_many.hpp"
#include "support/process.hpp"
#include "support/random_harness.hpp"
#include "support/temporary_folder.hpp"

#include <chrono>
#include <iterator>
#include <memory>
#include <regex>
#include <sstream>
#include <thread>

using namespace halfsplit;
using Microseconds = std::chrono::microseconds;

namespace {

constexpr std::uint64_t usual_kills = 25;

std::uint64_t kills() {
    return test::how_many("HALFSPLIT_KILLS", usual_kills);
}

std::vector<std::string> command(const std::string& name, const std::string& job) {
    return {HALFSPLIT_PROGRAM, name, test::path_of("tests/data/small_chain.json"), "--job", job};
}

// "[12] Remark: ..." in a hunt, "  12  Remark: ..." of note.
std::uint64_t last_acknowledged(const std::string& said) {
    const std::regex acknowledgement("([0-9]+)[\\] ] Remark: ");
    std::uint64_t last = 0;
    for (std::sregex_iterator it(said.begin(), said.end(), acknowledgement), end; it != end; ++it)
        last = std::max<std::uint64_t>(last, std::stoul((*it)[1].str()));
    return last;
}

// Throws where one is not whole.
std::uint64_t records_in(const std::string& job) {
    return job::read_log(system_files().read(job, 1U << 30U), job).records.size();
}

// Kills `start`ed processes at moments spread over as long as an undisturbed one takes.
template <typename Start>
void kill_at_random(const std::string& job, Start start) {
    const auto begin = std::chrono::steady_clock::now();
    REQUIRE(last_acknowledged(start()->said()) > 0);
    const auto whole = std::chrono::duration_cast<Microseconds>(std::chrono::steady_clock::now() - begin);
    test::Random dice(7);
    std::uint64_t known = records_in(job);
    std::size_t cut_short = 0;
    for (std::uint64_t i = 0; i < kills(); ++i) {
        auto process = start();
        std::this_thread::sleep_for(whole * dice.below(1000) / 900);
        process->kill();
        const std::string said = process->said();
        const std::uint64_t acknowledged = std::max(known, last_acknowledged(said));
        INFO("kill " << i << ", " << acknowledged << " records acknowledged; it said: " << said);
        // The reader refuses a record that is not whole, and a gap in the numbers.
        known = records_in(job);
        REQUIRE(known >= acknowledged);
        cut_short += known == acknowledged ? 0 : 1;
    }
    if (kills() != usual_kills) {
        WARN(kills() << " kills, " << known << " records; " << cut_short
                     << " kills came between writing and saying so");
    }
    test::FakeClock clock;
    job::Log log(system_files(), clock, job);
    log.append(job::Event{job::Remark{"after"}, {}});
    REQUIRE(records_in(job) == log.records().size());
}

}  // namespace

TEST_CASE("note killed at any moment loses nothing that it acknowledged") {
    const test::TemporaryFolder folder;
    const std::string job = folder / "van.job";
    kill_at_random(job, [&] {
        auto words = command("note", job);
        words.insert(words.end(), {"remark", "the loom is green at the kick panel"});
        return std::make_unique<test::Process>(words, "");
    });
}

TEST_CASE("hunt killed at any moment loses nothing that it acknowledged") {
    const test::TemporaryFolder folder;
    const std::string job = folder / "van.job";
    for (const char* event :
         {"intake complaint=dead", "answers none", "safe ignition=off bus=asleep battery=off waited=10"}) {
        std::istringstream words(event);
        auto all = command("note", job);
        all.insert(all.end(), std::istream_iterator<std::string>(words), {});
        test::Process(all, "").said();
    }
    kill_at_random(job, [&] {
        std::string lines;
        for (int i = 0; i < 12; ++i) lines += "remark pin " + std::to_string(i) + " looked at\n";
        return std::make_unique<test::Process>(command("hunt", job), lines);
    });
}
