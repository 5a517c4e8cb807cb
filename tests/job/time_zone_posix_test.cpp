// Times of a log are UTC: neither where one is nor a change to or from summer time shows in it.
#include "halfsplit/job/log.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/shell.hpp"
#include "support/temporary_folder.hpp"

#include <ctime>

using namespace halfsplit;
using namespace halfsplit::test;

namespace {

std::string in_zone(const std::string& zone, const std::string& rest) {
    return "TZ='" + zone + "' " HALFSPLIT_PROGRAM " " + rest;
}

}  // namespace

TEST_CASE("a review is the same in every time zone, with summer time and without") {
    // Half a day off each way; clocks that change in the night in which the job was done.
    const std::string job = "review '" + path_of("data/demo/jobs/minibus-lift-silent.job") + "'";
    const Ran utc = run_shell(in_zone("UTC0", job));
    REQUIRE(utc.out.find("2026-") != std::string::npos);
    for (const std::string zone :
         {"AAA12", "AAA-13:45", "AAA-1BBB,J1/0,J365/23", "AAA+5BBB,M1.1.0,M12.5.0/3"})
        CHECK(run_shell(in_zone(zone, job)).out == utc.out);
}

TEST_CASE("records that are written in one zone after another keep their order and their minutes") {
    const TemporaryFolder folder;
    const std::string job = folder / "van.job";
    const auto before = static_cast<UnixSeconds>(std::time(nullptr));
    for (const std::string zone : {"AAA-13", "AAA12", "UTC0", "AAA-1BBB,J1/0,J365/23"}) {
        const std::string rest =
            "note '" + path_of("tests/data/small_chain.json") + "' --job '" + job + "' remark here";
        REQUIRE(run_shell(in_zone(zone, rest)).code == 0);
    }
    const auto after = static_cast<UnixSeconds>(std::time(nullptr));
    const auto records = job::read_log(system_files().read(job, 1U << 30U), job).records;
    REQUIRE(records.size() >= 4);
    UnixSeconds newest = before;
    for (const job::Record& record : records) {
        CHECK(record.time >= newest);
        CHECK(record.time <= after);
        newest = record.time;
    }
}
