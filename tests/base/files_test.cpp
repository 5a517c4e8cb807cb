// The real disk, in a temporary folder.
#include "halfsplit/base/files.hpp"

#include "support/catch.hpp"
#include "support/limits.hpp"
#include "support/temporary_folder.hpp"

#include <filesystem>
#include <fstream>
#include <sys/stat.h>

using namespace halfsplit;
using namespace halfsplit::test;
using Kind = FileError::Kind;

namespace {

template <typename Action>
FileError error_of(Action action) {
    try {
        action();
    } catch (const FileError& error) {
        return error;
    }
    FAIL("no FileError was thrown");
    throw std::logic_error("not reached");
}

void put(const std::string& path, std::string_view text) {
    std::ofstream(path, std::ios::binary) << text;
}

std::string read(const std::string& path) {
    return posix_files().read(path, 1U << 20U);
}

bool says(const FileError& error, const std::string& words) {
    return std::string(error.what()).find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a file is read whole, up to the limit and not a byte beyond") {
    const TemporaryFolder folder;
    put(folder / "a", std::string("line\n\0end", 9));
    CHECK(posix_files().read(folder / "a", 9) == std::string("line\n\0end", 9));
    const FileError error = error_of([&] { posix_files().read(folder / "a", 8); });
    CHECK(error.kind() == Kind::TooLarge);
    CHECK(says(error, folder / "a"));
    CHECK(says(error, "8 bytes"));
}

TEST_CASE("a file of many pieces is read whole") {
    const TemporaryFolder folder;
    std::string text;
    for (int i = 0; i < 30'000; ++i) text += std::to_string(i) + "\n";
    put(folder / "a", text);
    CHECK(read(folder / "a") == text);
}

TEST_CASE("a missing file, and one below something that is no folder, are told by their path") {
    const TemporaryFolder folder;
    const FileError missing = error_of([&] { read(folder / "absent.json"); });
    CHECK(missing.kind() == Kind::Missing);
    CHECK(says(missing, folder / "absent.json"));
    put(folder / "a", "");
    CHECK(error_of([&] { read(folder / "a/b"); }).kind() == Kind::Missing);
    CHECK_FALSE(posix_files().exists(folder / "absent.json"));
    CHECK_FALSE(posix_files().exists(folder / "a/b"));
    CHECK(posix_files().exists(folder / "a"));
}

TEST_CASE("a folder is told from a file, whatever is asked of it") {
    const TemporaryFolder folder;
    const std::string path = folder.path().string();
    CHECK(error_of([&] { read(path); }).kind() == Kind::IsFolder);
    CHECK(error_of([&] { posix_files().open_for_append(path); }).kind() == Kind::IsFolder);
    CHECK(error_of([&] { posix_files().write(path, "x"); }).kind() == Kind::IsFolder);
}

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
        CHECK(error_of([&] { posix_files().open_for_append(folder / "open"); }).kind() == Kind::Denied);
        CHECK(error_of([&] { posix_files().open_for_append(folder / "new"); }).kind() == Kind::Denied);
        CHECK(error_of([&] { posix_files().write(folder / "open", "x"); }).kind() == Kind::Denied);
        CHECK(read(folder / "open") == "kept");
    }
}

TEST_CASE("appending puts text behind what is there") {
    const TemporaryFolder folder;
    {
        const auto file = posix_files().open_for_append(folder / "log");
        CHECK(file->read_all(100).empty());
        file->append_durably("one\n");
        file->append_durably("two\n");
        CHECK(file->read_all(100) == "one\ntwo\n");
    }
    const auto file = posix_files().open_for_append(folder / "log");
    CHECK(file->read_all(100) == "one\ntwo\n");
    file->append_durably("three\n");
    CHECK(read(folder / "log") == "one\ntwo\nthree\n");
}

TEST_CASE("a log and what is set aside of it are for their owner alone; what is written for others is not") {
    const TemporaryFolder folder;
    const auto permissions = [&](const std::string& name) {
        return std::filesystem::status(folder / name).permissions();
    };
    const auto owner_alone = std::filesystem::perms::owner_read | std::filesystem::perms::owner_write;
    const mode_t before = umask(0);
    {
        const auto log = posix_files().open_for_append(folder / "job");
        log->append_durably("one\ntw");
        log->set_aside_tail(4, folder / "job.torn-1");
    }
    posix_files().write(folder / "page.html", "for the shop");
    umask(before);
    CHECK(permissions("job") == owner_alone);
    CHECK(permissions("job.torn-1") == owner_alone);
    CHECK((permissions("page.html") & std::filesystem::perms::group_read) != std::filesystem::perms::none);
}

TEST_CASE("one writer at a time, and the next when the first is done") {
    const TemporaryFolder folder;
    {
        const auto first = posix_files().open_for_append(folder / "log");
        const FileError error = error_of([&] { posix_files().open_for_append(folder / "log"); });
        CHECK(error.kind() == Kind::Locked);
        CHECK(says(error, folder / "log"));
        first->append_durably("still mine\n");
    }
    CHECK(posix_files().open_for_append(folder / "log")->read_all(100) == "still mine\n");
}

TEST_CASE("a tail is set aside whole, and never over another file") {
    const TemporaryFolder folder;
    put(folder / "log", "whole\nhal");
    put(folder / "taken", "kept");
    const auto file = posix_files().open_for_append(folder / "log");
    error_of([&] { file->set_aside_tail(6, folder / "taken"); });
    CHECK(read(folder / "taken") == "kept");
    CHECK(read(folder / "log") == "whole\nhal");
    file->set_aside_tail(6, folder / "aside");
    CHECK(read(folder / "aside") == "hal");
    CHECK(read(folder / "log") == "whole\n");
    file->append_durably("next\n");
    CHECK(read(folder / "log") == "whole\nnext\n");
}

TEST_CASE("a disk that fills up fails the append, and a cut takes away what it left") {
    const TemporaryFolder folder;
    const auto file = posix_files().open_for_append(folder / "log");
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
    CHECK(says(error_of([&] { posix_files().open_for_append(folder / "pipe"); }), "not a regular file"));
}

TEST_CASE("a link to nothing is not an endless search") {
    const TemporaryFolder folder;
    std::filesystem::create_symlink("nowhere", folder / "link");
    CHECK(error_of([&] { posix_files().open_for_append(folder / "link"); }).kind() == Kind::Missing);
}

TEST_CASE("writing replaces a file in one step and keeps its permissions") {
    const TemporaryFolder folder;
    posix_files().write(folder / "a", "old");
    std::filesystem::permissions(folder / "a", std::filesystem::perms(0640));
    put(folder / "a.new", "somebody else's");
    posix_files().write(folder / "a", "new text");
    CHECK(read(folder / "a") == "new text");
    CHECK(std::filesystem::status(folder / "a").permissions() == std::filesystem::perms(0640));
    CHECK(read(folder / "a.new") == "somebody else's");
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 2);
}

TEST_CASE("a write that finds no room leaves the old file and nothing beside it") {
    const TemporaryFolder folder;
    posix_files().write(folder / "a", "old");
    {
        const FullDisk full(5);
        REQUIRE(full.ok());
        CHECK(error_of([&] { posix_files().write(folder / "a", "too long"); }).kind() == Kind::Failed);
    }
    CHECK(read(folder / "a") == "old");
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}
