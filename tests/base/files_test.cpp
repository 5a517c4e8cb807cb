// The real disk, in a temporary folder.
#include "halfsplit/base/files.hpp"

#include "base/paths.hpp"
#include "support/catch.hpp"
#include "support/disk.hpp"

#include <filesystem>

using namespace halfsplit;
using namespace halfsplit::test;
using Kind = FileError::Kind;

TEST_CASE("a file is read whole, up to the limit and not a byte beyond") {
    const TemporaryFolder folder;
    put(folder / "a", std::string("line\n\0end", 9));
    CHECK(system_files().read(folder / "a", 9) == std::string("line\n\0end", 9));
    const FileError error = error_of([&] { system_files().read(folder / "a", 8); });
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
    CHECK_FALSE(system_files().exists(folder / "absent.json"));
    CHECK_FALSE(system_files().exists(folder / "a/b"));
    CHECK(system_files().exists(folder / "a"));
}

TEST_CASE("a folder is told from a file, whatever is asked of it") {
    const TemporaryFolder folder;
    const std::string path = folder.path().string();
    CHECK(error_of([&] { read(path); }).kind() == Kind::IsFolder);
    CHECK(error_of([&] { system_files().open_for_append(path); }).kind() == Kind::IsFolder);
    CHECK(error_of([&] { system_files().write(path, "x"); }).kind() == Kind::IsFolder);
}

TEST_CASE("appending puts text behind what is there") {
    const TemporaryFolder folder;
    {
        const auto file = system_files().open_for_append(folder / "log");
        CHECK(file->read_all(100).empty());
        file->append_durably("one\n");
        file->append_durably("two\n");
        CHECK(file->read_all(100) == "one\ntwo\n");
    }
    const auto file = system_files().open_for_append(folder / "log");
    CHECK(file->read_all(100) == "one\ntwo\n");
    file->append_durably("three\n");
    CHECK(read(folder / "log") == "one\ntwo\nthree\n");
}

TEST_CASE("one writer at a time, and the next when the first is done") {
    const TemporaryFolder folder;
    {
        const auto first = system_files().open_for_append(folder / "log");
        const FileError error = error_of([&] { system_files().open_for_append(folder / "log"); });
        CHECK(error.kind() == Kind::Locked);
        CHECK(says(error, folder / "log"));
        first->append_durably("still mine\n");
    }
    CHECK(system_files().open_for_append(folder / "log")->read_all(100) == "still mine\n");
}

TEST_CASE("a tail is set aside whole, and never over another file") {
    const TemporaryFolder folder;
    put(folder / "log", "whole\nhal");
    put(folder / "taken", "kept");
    const auto file = system_files().open_for_append(folder / "log");
    error_of([&] { file->set_aside_tail(6, folder / "taken"); });
    CHECK(read(folder / "taken") == "kept");
    CHECK(read(folder / "log") == "whole\nhal");
    file->set_aside_tail(6, folder / "aside");
    CHECK(read(folder / "aside") == "hal");
    CHECK(read(folder / "log") == "whole\n");
    file->append_durably("next\n");
    CHECK(read(folder / "log") == "whole\nnext\n");
}

TEST_CASE("writing replaces a file in one step, whatever lies beside it") {
    const TemporaryFolder folder;
    system_files().write(folder / "a", "old");
    put(folder / "a.new", "somebody else's");
    system_files().write(folder / "a", "new text");
    CHECK(read(folder / "a") == "new text");
    CHECK(read(folder / "a.new") == "somebody else's");
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 2);
}

TEST_CASE("the folder of a path is the one to be asked for, with its root where it has one") {
    CHECK(folder_of("van.json") == ".");
    CHECK(folder_of("jobs/van.json") == "jobs");
    CHECK(folder_of("/van.json") == "/");
    CHECK(folder_of("/a/van.json") == "/a");
    CHECK(folder_part("jobs/van.json") == "jobs/");
    CHECK(folder_part("van.json").empty());
}

TEST_CASE("one file is the same under every way to it") {
    const TemporaryFolder folder;
    put(folder / "a", "");
    put(folder / "b", "");
    CHECK(same_file(system_files(), folder / "a", folder / "./a"));
    CHECK_FALSE(same_file(system_files(), folder / "a", folder / "b"));
    CHECK_FALSE(same_file(system_files(), folder / "a", folder / "c"));
}
