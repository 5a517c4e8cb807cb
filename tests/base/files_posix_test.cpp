// The real disk, in a temporary folder: what POSIX alone has, permissions, pipes, links, limits.
#include "halfsplit/base/files.hpp"

#include "support/catch.hpp"
#include "support/disk.hpp"
#include "support/limits_posix.hpp"

#include <filesystem>
#include <sys/stat.h>

using namespace halfsplit;
using namespace halfsplit::test;
using Kind = FileError::Kind;

TEST_CASE("what may not be read or written is told as denied") {
    const TemporaryFolder folder;
    put(folder / "open", "kept");
    put(folder / "secret", "kept");
    std::filesystem::permissions(folder / "open", std::filesystem::perms(0444));
    std::filesystem::permissions(folder / "secret", std::filesystem::perms::none);
    std::filesystem::permissions(folder.path(), std::filesystem::perms(0555));
    {
        const OrdinaryUser user;
        REQUIRE(user.ok());
        CHECK(error_of([&] { read(folder / "secret"); }).kind() == Kind::Denied);
        CHECK(error_of([&] { system_files().open_for_append(folder / "open"); }).kind() == Kind::Denied);
        CHECK(error_of([&] { system_files().open_for_append(folder / "new"); }).kind() == Kind::Denied);
        CHECK(error_of([&] { system_files().write(folder / "open", "x"); }).kind() == Kind::Denied);
        CHECK(read(folder / "open") == "kept");
    }
}

TEST_CASE("a log and what is set aside of it are for their owner alone; what is written for others is not") {
    const TemporaryFolder folder;
    const auto permissions = [&](const std::string& name) {
        return std::filesystem::status(folder / name).permissions();
    };
    const auto owner_alone = std::filesystem::perms::owner_read | std::filesystem::perms::owner_write;
    const mode_t before = umask(0);
    {
        const auto log = system_files().open_for_append(folder / "job");
        log->append_durably("one\ntw");
        log->set_aside_tail(4, folder / "job.torn-1");
    }
    system_files().write(folder / "page.html", "for the shop");
    umask(before);
    CHECK(permissions("job") == owner_alone);
    CHECK(permissions("job.torn-1") == owner_alone);
    CHECK((permissions("page.html") & std::filesystem::perms::group_read) != std::filesystem::perms::none);
}

TEST_CASE("a disk that fills up fails the append, and a cut takes away what it left") {
    const TemporaryFolder folder;
    const auto file = system_files().open_for_append(folder / "log");
    file->append_durably("0123456789");
    {
        const FullDisk full(15);
        REQUIRE(full.ok());
        CHECK(error_of([&] { file->append_durably("abcdefghij"); }).kind() == Kind::Failed);
    }
    CHECK(read(folder / "log") == "0123456789abcde");
    file->cut(10);
    file->append_durably("K");
    CHECK(read(folder / "log") == "0123456789K");
}

TEST_CASE("a device or pipe is no place for a log") {
    const TemporaryFolder folder;
    REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
    CHECK(says(error_of([&] { system_files().open_for_append(folder / "pipe"); }), "not a regular file"));
}

TEST_CASE("a link to nothing is not an endless search") {
    const TemporaryFolder folder;
    std::filesystem::create_symlink("nowhere", folder / "link");
    CHECK(error_of([&] { system_files().open_for_append(folder / "link"); }).kind() == Kind::Missing);
}

TEST_CASE("a file that is replaced keeps its permissions") {
    const TemporaryFolder folder;
    system_files().write(folder / "a", "old");
    std::filesystem::permissions(folder / "a", std::filesystem::perms(0640));
    system_files().write(folder / "a", "new text");
    CHECK(std::filesystem::status(folder / "a").permissions() == std::filesystem::perms(0640));
}

TEST_CASE("a write that finds no room leaves the old file and nothing beside it") {
    const TemporaryFolder folder;
    system_files().write(folder / "a", "old");
    {
        const FullDisk full(5);
        REQUIRE(full.ok());
        CHECK(error_of([&] { system_files().write(folder / "a", "too long"); }).kind() == Kind::Failed);
    }
    CHECK(read(folder / "a") == "old");
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}
