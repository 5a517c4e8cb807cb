// The promise of the log: what append() acknowledged is on disk, whatever happens.
#include "halfsplit/job/log.hpp"

#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/temporary_folder.hpp"

#include <fstream>

using namespace halfsplit;
using namespace halfsplit::job;
using namespace halfsplit::test;

namespace {

constexpr std::uint64_t any_size = 1U << 24U;

Event remark(const std::string& text) {
    return {Remark{text}, {}};
}

std::string text_in(const Record& record) {
    return std::get<Remark>(record.event.body).text;
}

std::vector<std::string> remarks_in(const std::vector<Record>& records) {
    std::vector<std::string> texts;
    texts.reserve(records.size());
    for (const Record& record : records) texts.push_back(text_in(record));
    return texts;
}

std::vector<std::string> remarks_on_disk(FakeFiles& files, const std::string& path = "job") {
    return remarks_in(read_log(files.read(path, any_size), path).records);
}

using Texts = std::vector<std::string>;

}  // namespace

TEST_CASE("records are numbered, timed and read back by the next one who opens the log") {
    FakeFiles files;
    FakeClock clock;
    {
        Log log(files, clock, "job");
        CHECK(log.records().empty());
        CHECK(log.append(remark("one")).sequence == 1);
        clock.advance_minutes(5);
        const Record& second = log.append(remark("two"));
        CHECK(second.sequence == 2);
        CHECK(second.time == clock.now());
    }
    Log log(files, clock, "job");
    CHECK(remarks_in(log.records()) == Texts{"one", "two"});
    CHECK(log.records()[1].time - log.records()[0].time == 300);
    log.append(remark("three"));
    CHECK(remarks_on_disk(files) == Texts{"one", "two", "three"});
}

TEST_CASE("the folder is synced before the first record is acknowledged") {
    FakeFiles files;
    FakeClock clock;
    Log log(files, clock, "job");
    log.append(remark("one"));
    files.drop_unsynced();
    CHECK(remarks_on_disk(files) == Texts{"one"});
}

TEST_CASE("a log whose creator died before syncing the folder is synced by the next") {
    FakeFiles files;
    FakeClock clock;
    files.fail_operation(Operation::SyncFolder, 0);
    CHECK_THROWS_AS(Log(files, clock, "job"), FileError);
    Log log(files, clock, "job");
    log.append(remark("one"));
    files.drop_unsynced();
    CHECK(remarks_on_disk(files) == Texts{"one"});
}

TEST_CASE("an append is one write and one sync, however many records it has") {
    FakeFiles files;
    FakeClock clock;
    Log log(files, clock, "job");
    const std::size_t before = files.calls().size();
    log.append({remark("one"), remark("two"), remark("three")});
    REQUIRE(files.calls().size() == before + 2);
    CHECK(files.calls()[before].operation == Operation::Write);
    CHECK(files.calls()[before].bytes == files.text_of("job").size());
    CHECK(files.calls()[before + 1].operation == Operation::Sync);
    CHECK(remarks_on_disk(files) == Texts{"one", "two", "three"});
    log.append(std::vector<Event>{});
    CHECK(files.calls().size() == before + 2);
}

TEST_CASE("what was read on opening is synced before it is trusted") {
    FakeFiles files;
    FakeClock clock;
    {
        Log log(files, clock, "job");
        log.append(remark("one"));
        files.fail_after(1, 0, 2);  // written, but the process dies in the sync
        CHECK_THROWS_AS(log.append(remark("two")), FileError);
        files.stop_failing();
    }
    Log log(files, clock, "job");
    REQUIRE(remarks_in(log.records()) == Texts{"one", "two"});
    files.drop_unsynced();
    CHECK(remarks_on_disk(files) == Texts{"one", "two"});
}

TEST_CASE("an append that fails in the write is not acknowledged and leaves no half line") {
    for (const std::size_t bytes_left : {0U, 1U, 40U, 90U}) {
        FakeFiles files;
        FakeClock clock;
        Log log(files, clock, "job");
        log.append(remark("one"));
        const std::string before = files.text_of("job");
        files.fail_operation(Operation::Write, 0, bytes_left);
        CHECK_THROWS_AS(log.append(remark("two")), FileError);
        CHECK(remarks_in(log.records()) == Texts{"one"});
        CHECK(log.failure() == "disk full, made to fail: job");
        CHECK(files.text_of("job") == before);
        log.append(remark("three"));
        CHECK(log.failure().empty());
        CHECK(log.records().back().sequence == 2);
        CHECK(remarks_on_disk(files) == Texts{"one", "three"});
    }
}

TEST_CASE("an append that fails in the sync is not acknowledged and is taken back") {
    FakeFiles files;
    FakeClock clock;
    Log log(files, clock, "job");
    log.append(remark("one"));
    files.fail_operation(Operation::Sync, 0);
    CHECK_THROWS_AS(log.append(remark("two")), FileError);
    CHECK(remarks_in(log.records()) == Texts{"one"});
    CHECK_FALSE(log.failure().empty());
    CHECK(remarks_on_disk(files) == Texts{"one"});
    log.append(remark("three"));
    files.drop_unsynced();
    CHECK(remarks_on_disk(files) == Texts{"one", "three"});
}

TEST_CASE("while what a failed append left cannot be cut off, nothing is written behind it") {
    FakeFiles files;
    FakeClock clock;
    Log log(files, clock, "job");
    log.append(remark("one"));
    files.fail_after(0, 30, 3);  // the write, the cut, and the cut before the next append
    CHECK_THROWS_AS(log.append(remark("two")), FileError);
    const std::size_t writes = files.count(Operation::Write);
    CHECK_THROWS_AS(log.append(remark("three")), FileError);
    CHECK(files.count(Operation::Write) == writes);
    CHECK(log.failure() == "disk full, made to fail: job");
    log.append(remark("four"));
    CHECK(remarks_on_disk(files) == Texts{"one", "four"});
}

TEST_CASE("an event that JSON cannot hold changes nothing") {
    FakeFiles files;
    FakeClock clock;
    Log log(files, clock, "job");
    log.append(remark("one"));
    const std::size_t calls = files.calls().size();
    CHECK_THROWS_AS(log.append({remark("two"), remark("\xFF")}), std::invalid_argument);
    CHECK(files.calls().size() == calls);
    log.append(remark("three"));
    CHECK(remarks_on_disk(files) == Texts{"one", "three"});
}

// A power cut at every call of a whole session, with any part of what was not synced surviving.
TEST_CASE("a crash at any moment loses nothing that was acknowledged") {
    for (const std::size_t kept_bytes : {0U, 1U, 60U, 100'000U}) {
        for (std::size_t crash = 0;; ++crash) {
            INFO("crash at call " << crash << ", " << kept_bytes << " unsynced bytes kept");
            FakeFiles files;
            FakeClock clock;
            Texts acknowledged;
            bool crashed = false;
            files.fail_after(crash, kept_bytes, 1'000);
            try {
                for (int session = 0; session < 2; ++session) {
                    Log log(files, clock, "job");
                    for (int i = 0; i < 2; ++i) {
                        const std::string text = std::to_string(session) + "." + std::to_string(i);
                        log.append(remark(text));
                        acknowledged.push_back(text);
                    }
                }
            } catch (const FileError&) {
                crashed = true;
            }
            files.stop_failing();
            files.drop_unsynced(kept_bytes);
            Log log(files, clock, "job");
            const Texts found = remarks_in(log.records());
            REQUIRE(found.size() >= acknowledged.size());
            REQUIRE(Texts(found.begin(), found.begin() + static_cast<long>(acknowledged.size())) ==
                    acknowledged);
            REQUIRE(found.size() <= acknowledged.size() + 1);
            log.append(remark("after"));
            REQUIRE(remarks_on_disk(files).back() == "after");
            if (!crashed) break;
        }
    }
}

TEST_CASE("a torn tail is set aside beside the log, told, and the log goes on") {
    FakeFiles files;
    FakeClock clock;
    { Log(files, clock, "job").append(remark("one")); }
    const std::string sound = files.text_of("job");
    files.put("job", sound + "{\"sequence\":2,\"ti");
    files.put("job.torn-1", "an earlier one");
    Log log(files, clock, "job");
    REQUIRE(log.torn());
    CHECK(log.torn()->offset == sound.size());
    CHECK(log.torn()->bytes == 17);
    CHECK(log.torn()->set_aside == "job.torn-2");
    CHECK(files.text_of("job.torn-2") == "{\"sequence\":2,\"ti");
    CHECK(files.text_of("job.torn-1") == "an earlier one");
    CHECK(files.text_of("job") == sound);
    log.append(remark("two"));
    CHECK(remarks_on_disk(files) == Texts{"one", "two"});
}

TEST_CASE("a torn tail is on disk elsewhere before it is cut off") {
    const std::string tail = "{\"sequence\":2,\"ti";
    for (std::size_t crash = 0; crash < 8; ++crash) {
        INFO("crash at call " << crash);
        FakeFiles files;
        FakeClock clock;
        { Log(files, clock, "job").append(remark("one")); }
        const std::string sound = files.text_of("job");
        files.put("job", sound + tail);
        files.fail_after(crash, 0, 1'000);
        try {
            Log(files, clock, "job");
        } catch (const FileError&) {
        }
        files.stop_failing();
        files.drop_unsynced();
        bool tail_is_somewhere = files.text_of("job") == sound + tail;
        for (const std::string& path : files.paths()) tail_is_somewhere |= files.text_of(path) == tail;
        CHECK(tail_is_somewhere);
        CHECK(remarks_in(Log(files, clock, "job").records()) == Texts{"one"});
    }
}

TEST_CASE("a last record that lacks only its line end is kept and gets one") {
    FakeFiles files;
    FakeClock clock;
    { Log(files, clock, "job").append({remark("one"), remark("two")}); }
    const std::string whole = files.text_of("job");
    files.put("job", whole.substr(0, whole.size() - 1));
    {
        Log log(files, clock, "job");
        CHECK(remarks_in(log.records()) == Texts{"one", "two"});
        CHECK_FALSE(log.torn());
        CHECK(files.text_of("job") == whole);
        log.append(remark("three"));
    }
    CHECK(remarks_on_disk(files) == Texts{"one", "two", "three"});
}

TEST_CASE("a log cut at any byte is opened, told of, and written on") {
    FakeFiles files;
    FakeClock clock;
    { Log(files, clock, "job").append({remark("one"), remark("two")}); }
    const std::string whole = files.text_of("job");
    for (std::size_t cut = 0; cut < whole.size(); ++cut) {
        INFO("cut at byte " << cut);
        FakeFiles cut_files;
        cut_files.put("job", whole.substr(0, cut));
        Texts expected;
        {
            Log log(cut_files, clock, "job");
            expected = remarks_in(log.records());
            log.append(remark("after"));
            if (log.torn())
                REQUIRE(cut_files.text_of(log.torn()->set_aside) ==
                        whole.substr(log.torn()->offset, log.torn()->bytes));
        }
        expected.emplace_back("after");
        REQUIRE(remarks_on_disk(cut_files) == expected);
    }
}

TEST_CASE("damage further up stops, frees the lock and changes nothing") {
    FakeFiles files;
    FakeClock clock;
    { Log(files, clock, "job").append({remark("one"), remark("two"), remark("three")}); }
    std::string text = files.text_of("job");
    text.replace(text.find("two"), 3, "TWO");
    text += "torn";
    files.put("job", text);
    CHECK_THROWS_AS(Log(files, clock, "job"), DamagedLog);
    CHECK_THROWS_AS(Log(files, clock, "job"), DamagedLog);  // and not as locked
    CHECK(files.text_of("job") == text);
    CHECK(files.paths() == Texts{"job"});
}

TEST_CASE("two writers of one log: the second is refused until the first is gone, on a real disk") {
    const TemporaryFolder folder;
    FakeClock clock;
    const std::string path = folder / "job.log";
    {
        Log first(system_files(), clock, path);
        first.append(remark("one"));
        try {
            Log second(system_files(), clock, path);
            FAIL("two writers at once");
        } catch (const FileError& error) {
            CHECK(error.kind() == FileError::Kind::Locked);
            CHECK(std::string(error.what()).find(path) != std::string::npos);
        }
        first.append(remark("two"));
    }
    Log second(system_files(), clock, path);
    CHECK(remarks_in(second.records()) == Texts{"one", "two"});
}

TEST_CASE("a torn tail is set aside on a real disk") {
    const TemporaryFolder folder;
    FakeClock clock;
    const std::string path = folder / "job.log";
    { Log(system_files(), clock, path).append(remark("one")); }
    std::ofstream(path, std::ios::app | std::ios::binary) << "{\"seq";
    {
        Log log(system_files(), clock, path);
        REQUIRE(log.torn());
        CHECK(system_files().read(log.torn()->set_aside, any_size) == "{\"seq");
        log.append(remark("two"));
    }
    CHECK(remarks_in(read_log(system_files().read(path, any_size), path).records) == Texts{"one", "two"});
}

TEST_CASE("a folder is no log") {
    const TemporaryFolder folder;
    FakeClock clock;
    const auto kind_of = [&](const std::string& path) {
        try {
            Log(system_files(), clock, path);
        } catch (const FileError& error) {
            return error.kind();
        }
        FAIL("opened " << path);
        return FileError::Kind::Failed;
    };
    CHECK(kind_of(folder.path().string()) == FileError::Kind::IsFolder);
    CHECK(kind_of(folder / "no/such/folder/job.log") == FileError::Kind::Missing);
}
