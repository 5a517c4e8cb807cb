// The real disk, in a temporary folder: what Windows alone has, its paths, its shares, its lists of access.
#include "halfsplit/base/files.hpp"

#include "base/access_windows.hpp"
#include "base/calls_windows.hpp"
#include "base/paths.hpp"
#include "base/wide_windows.hpp"
#include "support/catch.hpp"
#include "support/disk.hpp"

#include <algorithm>
#include <vector>

using namespace halfsplit;
using namespace halfsplit::test;
using Kind = FileError::Kind;

namespace {

// Who may do what, as "D:P(A;;FA;;;S-1-5-...)...".
std::string access_of(const std::string& path) {
    DWORD size = 0;
    const std::wstring name = wide_text(path);
    GetFileSecurityW(name.c_str(), DACL_SECURITY_INFORMATION, nullptr, 0, &size);
    std::vector<unsigned char> access(size);
    REQUIRE(GetFileSecurityW(name.c_str(), DACL_SECURITY_INFORMATION, access.data(), size, &size) != 0);
    LPWSTR text = nullptr;
    REQUIRE(ConvertSecurityDescriptorToStringSecurityDescriptorW(
                access.data(), SDDL_REVISION_1, DACL_SECURITY_INFORMATION, &text, nullptr) != 0);
    const std::string result = utf8_text(text);
    LocalFree(text);
    return result;
}

// Whether the list lets everybody, or every user of the machine, do anything.
bool open_to_others(const std::string& access) {
    for (const std::string who : {";WD)", ";BU)", ";AU)"}) {
        if (access.find(who) != std::string::npos) return true;
    }
    return false;
}

std::string with_backslashes(std::string path) {
    std::replace(path.begin(), path.end(), '/', '\\');
    return path;
}

}  // namespace

TEST_CASE("a log and what is set aside of it are for their owner alone; what is written for others is not") {
    const TemporaryFolder folder;
    {
        const auto log = system_files().open_for_append(folder / "job");
        log->append_durably("one\ntw");
        log->set_aside_tail(4, folder / "job.torn-1");
    }
    put(folder / "page.html", "for the shop");
    INFO(access_of(folder / "job") << " " << access_of(folder / "page.html"));
    CHECK_FALSE(open_to_others(access_of(folder / "job")));
    CHECK(access_of(folder / "job.torn-1") == access_of(folder / "job"));
    CHECK(access_of(folder / "page.html") != access_of(folder / "job"));
}

TEST_CASE("a file that is replaced keeps who may read and write it") {
    const TemporaryFolder folder;
    OwnerAlone owner;
    REQUIRE(owner.attributes() != nullptr);
    const HANDLE file = CreateFileW(wide_text(folder / "a").c_str(), GENERIC_WRITE, 0, owner.attributes(),
                                    CREATE_NEW, FILE_ATTRIBUTE_NORMAL, nullptr);
    REQUIRE(file != INVALID_HANDLE_VALUE);
    CloseHandle(file);
    const std::string before = access_of(folder / "a");
    system_files().write(folder / "a", "new text");
    CHECK(read(folder / "a") == "new text");
    CHECK(access_of(folder / "a") == before);
}

TEST_CASE("a log that is written can be read meanwhile, and nobody else writes into it, whatever program") {
    const TemporaryFolder folder;
    const auto log = system_files().open_for_append(folder / "job");
    log->append_durably("one\n");
    CHECK(read(folder / "job") == "one\n");
    const HANDLE other = CreateFileW(wide_text(folder / "job").c_str(), GENERIC_WRITE,
                                     FILE_SHARE_READ | FILE_SHARE_WRITE, nullptr, OPEN_EXISTING, 0, nullptr);
    CHECK(other == INVALID_HANDLE_VALUE);
    CHECK(error_of([&] { system_files().write(folder / "job", "x"); }).kind() != Kind::Missing);
    CHECK(read(folder / "job") == "one\n");
}

TEST_CASE("a file that another program keeps to itself is told as that") {
    const TemporaryFolder folder;
    put(folder / "sheet.csv", "text");
    const HANDLE other = CreateFileW(wide_text(folder / "sheet.csv").c_str(), GENERIC_READ, 0, nullptr,
                                     OPEN_EXISTING, 0, nullptr);
    REQUIRE(other != INVALID_HANDLE_VALUE);
    const FileError error = error_of([&] { read(folder / "sheet.csv"); });
    CHECK(error.kind() == Kind::Locked);
    CHECK(says(error, "another program has it open. Close it there, and try again."));
    CloseHandle(other);
    CHECK(read(folder / "sheet.csv") == "text");
}

TEST_CASE("a file that may only be read is neither a log nor written over") {
    // wine leaves that to the system below it, where the superuser may write all the same.
    const TemporaryFolder folder;
    put(folder / "a", "kept");
    SetFileAttributesW(wide_text(folder / "a").c_str(), FILE_ATTRIBUTE_READONLY);
    const HANDLE file =
        CreateFileW(wide_text(folder / "a").c_str(), GENERIC_WRITE, 0, nullptr, OPEN_EXISTING, 0, nullptr);
    if (file != INVALID_HANDLE_VALUE) {
        CloseHandle(file);
        WARN("files that may only be read can be written here: nothing was tried");
        return;
    }
    CHECK(error_of([&] { system_files().open_for_append(folder / "a"); }).kind() == Kind::Denied);
    CHECK(error_of([&] { system_files().write(folder / "a", "x"); }).kind() == Kind::Denied);
    CHECK(read(folder / "a") == "kept");
    CHECK(system_files().list(folder.path().string()).size() == 1);
    SetFileAttributesW(wide_text(folder / "a").c_str(), FILE_ATTRIBUTE_NORMAL);
}

TEST_CASE("paths go with either slash, a drive, and every letter there is") {
    const TemporaryFolder folder;
    const std::string name =
        "Gr\xC3\xBC\xC3\x9F"
        "e \xC5\x81\xC3\xB3"
        "d\xC5\xBA \xE8\xBB\x8A.json";
    system_files().write(with_backslashes(folder / name), "here");
    CHECK(read(folder / name) == "here");
    const auto entries = system_files().list(with_backslashes(folder.path().string()));
    REQUIRE(entries.size() == 1);
    CHECK(entries.front().name == name);
    CHECK(same_file(system_files(), folder / name, with_backslashes(folder / name)));
    // Names differ by capitals for people only.
    put(folder / "van.json", "");
    CHECK(same_file(system_files(), folder / "van.json", folder / "VAN.JSON"));
}

TEST_CASE("text of paths: where a folder ends, and what stands by itself") {
    CHECK(folder_part("jobs\\monday.job") == "jobs\\");
    CHECK(folder_of("jobs\\monday.job") == "jobs");
    CHECK(folder_of("C:\\monday.job") == "C:\\");
    CHECK(folder_of("C:monday.job") == "C:");
    CHECK(with_slashes("C:\\jobs\\monday.job") == "C:/jobs/monday.job");
    for (const std::string rooted : {"C:\\a", "C:/a", "c:a", "\\a", "/a", "\\\\server\\share\\a"}) {
        INFO(rooted);
        CHECK(is_rooted(rooted));
    }
    CHECK_FALSE(is_rooted("a\\b"));
}

TEST_CASE("a path of more than 260 characters is a path like others") {
    const TemporaryFolder folder;
    std::string path = folder.path().generic_string();
    while (path.size() < 300) {
        path += "/a folder with a long name";
        REQUIRE(CreateDirectoryW((L"\\\\?\\" + wide_text(with_backslashes(path))).c_str(), nullptr) != 0);
    }
    path += "/monday.job";
    system_files().open_for_append(path)->append_durably("one\n");
    CHECK(read(path) == "one\n");
    system_files().write(path, "two\n");
    CHECK(read(path) == "two\n");
}

TEST_CASE("a device is no place for a log") {
    CHECK(says(error_of([&] { system_files().open_for_append("NUL"); }), "not a regular file"));
}
