// The promise of the log where a real disk is full, or will not have it.
#include "halfsplit/job/log.hpp"

#include "support/catch.hpp"
#include "support/disk.hpp"
#include "support/fake_clock.hpp"
#include "support/limits_posix.hpp"

using namespace halfsplit;
using namespace halfsplit::job;
using namespace halfsplit::test;

namespace {

Event remark(const std::string& text) {
    return {Remark{text}, {}};
}

}  // namespace

TEST_CASE("a disk that fills up in the middle of an append, and has room again, on a real disk") {
    const TemporaryFolder folder;
    FakeClock clock;
    const std::string path = folder / "job.log";
    Log log(system_files(), clock, path);
    log.append(remark("one"));
    const std::string before = read(path);
    {
        const FullDisk full(before.size() + 20);
        REQUIRE(full.ok());
        CHECK_THROWS_AS(log.append(remark("two")), FileError);
        CHECK(read(path) == before);
    }
    log.append(remark("three"));
    CHECK(read_log(read(path), path).records.size() == 2);
}

TEST_CASE("a file that may not be written is no log") {
    const TemporaryFolder folder;
    FakeClock clock;
    { Log(system_files(), clock, folder / "job.log").append(remark("one")); }
    std::filesystem::permissions(folder / "job.log", std::filesystem::perms(0444));
    std::filesystem::permissions(folder.path(), std::filesystem::perms(0555));
    const OrdinaryUser user;
    REQUIRE(user.ok());
    for (const std::string name : {"job.log", "new.log"}) {
        INFO(name);
        CHECK(error_of([&] { Log(system_files(), clock, folder / name); }).kind() == FileError::Kind::Denied);
    }
}
