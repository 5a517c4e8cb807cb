// Files by the calls of Windows; files_posix.cpp has those of POSIX. docs/how-to/windows.md says what is
// promised.
#include "halfsplit/base/files.hpp"

#include <fmt/format.h>

#include "base/access_windows.hpp"
#include "base/calls_windows.hpp"
#include "base/file_trouble.hpp"
#include "base/paths.hpp"
#include "base/wide_windows.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <limits>
#include <system_error>
#include <utility>

namespace halfsplit {

namespace {

constexpr DWORD share_all = FILE_SHARE_READ | FILE_SHARE_WRITE | FILE_SHARE_DELETE;
constexpr std::uint64_t no_limit = std::numeric_limits<std::uint64_t>::max();

class Handle {
  public:
    explicit Handle(HANDLE handle) : handle_(handle) {}
    Handle(Handle&& other) noexcept : handle_(std::exchange(other.handle_, INVALID_HANDLE_VALUE)) {}
    Handle(const Handle&) = delete;
    Handle& operator=(const Handle&) = delete;
    Handle& operator=(Handle&&) = delete;
    ~Handle() {
        if (valid()) CloseHandle(handle_);
    }
    HANDLE get() const { return handle_; }
    bool valid() const { return handle_ != INVALID_HANDLE_VALUE; }

  private:
    HANDLE handle_;
};

bool is_held(DWORD error) {
    return error == ERROR_SHARING_VIOLATION || error == ERROR_LOCK_VIOLATION;
}

bool is_absent(DWORD error) {
    return error == ERROR_FILE_NOT_FOUND || error == ERROR_PATH_NOT_FOUND || error == ERROR_INVALID_NAME ||
           error == ERROR_DIRECTORY || error == ERROR_BAD_PATHNAME || error == ERROR_BAD_NETPATH ||
           error == ERROR_BAD_NET_NAME;
}

// The words of errno, which are in English whatever the language of the system, as all that is told.
[[noreturn]] void fail(const std::string& path, std::string_view action, DWORD error) {
    if (is_held(error)) {
        throw FileError(FileError::Kind::Locked,
                        fmt::format("cannot {} '{}': another program has it open. Close it there, and try "
                                    "again.",
                                    action, path));
    }
    if (is_absent(error)) fail_on_file(path, action, ENOENT);
    const auto condition = std::system_category().default_error_condition(static_cast<int>(error));
    if (condition.category() == std::generic_category()) fail_on_file(path, action, condition.value());
    throw FileError(FileError::Kind::Failed,
                    fmt::format("cannot {} '{}': error {} of Windows. Check the disk before trusting it with "
                                "more.",
                                action, path, error));
}

// Long ones are given in full, which alone may have more than 260 characters.
std::wstring native(const std::string& path) {
    constexpr std::size_t longest = 247;  // of a folder; of a file 259
    std::wstring result = wide_text(path);
    if (result.size() <= longest || result.rfind(L"\\\\?\\", 0) == 0) return result;
    std::wstring full(GetFullPathNameW(result.c_str(), 0, nullptr, nullptr), L'\0');
    full.resize(GetFullPathNameW(result.c_str(), static_cast<DWORD>(full.size()), full.data(), nullptr));
    const bool network = full.rfind(L"\\\\", 0) == 0;
    return network ? L"\\\\?\\UNC" + full.substr(1) : L"\\\\?\\" + full;
}

bool names_folder(const std::string& path) {
    const DWORD attributes = GetFileAttributesW(native(path).c_str());
    return attributes != INVALID_FILE_ATTRIBUTES && (attributes & FILE_ATTRIBUTE_DIRECTORY) != 0;
}

struct Opening {
    DWORD access, sharing, creation;
    SECURITY_ATTRIBUTES* owners = nullptr;
    DWORD flags = FILE_ATTRIBUTE_NORMAL;
};

Handle open_handle(const std::string& path, const Opening& how) {
    return Handle(CreateFileW(native(path).c_str(), how.access, how.sharing, how.owners, how.creation,
                              how.flags, nullptr));
}

[[noreturn]] void fail_to_open(const std::string& path, std::string_view action) {
    const DWORD error = GetLastError();
    if (names_folder(path)) fail_on_file(path, action, EISDIR);  // the system says "access denied"
    fail(path, action, error);
}

void sync_file(const Handle& file, const std::string& path) {
    if (FlushFileBuffers(file.get()) == 0) fail(path, "sync", GetLastError());
}

void seek(const Handle& file, std::int64_t offset, DWORD from, const std::string& path) {
    LARGE_INTEGER where;
    where.QuadPart = offset;
    if (SetFilePointerEx(file.get(), where, nullptr, from) == 0) fail(path, "read", GetLastError());
}

void write_whole(const Handle& file, std::string_view text, const std::string& path) {
    constexpr std::size_t most = 1U << 30U;
    while (!text.empty()) {
        DWORD written = 0;
        const auto size = static_cast<DWORD>(std::min(text.size(), most));
        if (WriteFile(file.get(), text.data(), size, &written, nullptr) == 0)
            fail(path, "write", GetLastError());
        text.remove_prefix(written);
    }
}

// From the current position to the end, and an error where that is more than `limit` bytes: unread where it
// shows beforehand.
std::string read_within(HANDLE file, std::uint64_t limit, const std::string& path) {
    LARGE_INTEGER size;
    const bool known = GetFileType(file) == FILE_TYPE_DISK && GetFileSizeEx(file, &size) != 0;
    if (known && static_cast<std::uint64_t>(size.QuadPart) > limit) fail_as_larger(path, limit);
    std::string text;
    std::array<char, 1U << 16U> piece{};
    while (text.size() <= limit) {
        DWORD got = 0;
        if (ReadFile(file, piece.data(), static_cast<DWORD>(piece.size()), &got, nullptr) == 0) {
            const DWORD error = GetLastError();
            if (error == ERROR_BROKEN_PIPE || error == ERROR_HANDLE_EOF) break;  // the writer is done
            fail(path, "read", error);
        }
        if (got == 0) break;
        text.append(piece.data(), got);
    }
    if (text.size() > limit) fail_as_larger(path, limit);
    return text;
}

void write_new_file(const std::string& path, std::string_view text, SECURITY_ATTRIBUTES* owners = nullptr) {
    const Handle file = open_handle(path, {GENERIC_WRITE, 0, CREATE_NEW, owners, FILE_FLAG_WRITE_THROUGH});
    if (!file.valid()) fail_to_open(path, "create");
    write_whole(file, text, path);
    sync_file(file, path);
}

// Programs that watch for viruses or index what is new look into a file as soon as it is there, and have it
// open for a moment.
void replace(const std::string& from, const std::string& to) {
    constexpr int times = 10;
    constexpr DWORD pause_ms = 20;
    for (int i = 1;; ++i) {
        const DWORD how = MOVEFILE_REPLACE_EXISTING | MOVEFILE_WRITE_THROUGH;
        if (MoveFileExW(native(from).c_str(), native(to).c_str(), how) != 0) return;
        const DWORD error = GetLastError();
        if (i == times || !(is_held(error) || error == ERROR_ACCESS_DENIED)) fail(to, "replace", error);
        Sleep(pause_ms);
    }
}

class WindowsAppendFile : public AppendFile {
  public:
    WindowsAppendFile(Handle file, std::string path) : file_(std::move(file)), path_(std::move(path)) {}

    std::string read_all(std::uint64_t limit) override {
        sync_file(file_, path_);
        seek(file_, 0, FILE_BEGIN, path_);
        return read_within(file_.get(), limit, path_);
    }

    void append_durably(std::string_view text) override {
        seek(file_, 0, FILE_END, path_);  // nobody else writes
        write_whole(file_, text, path_);
        sync_file(file_, path_);
    }

    void cut(std::uint64_t length) override {
        seek(file_, static_cast<std::int64_t>(length), FILE_BEGIN, path_);
        if (SetEndOfFile(file_.get()) == 0) fail(path_, "shorten", GetLastError());
        sync_file(file_, path_);
    }

    void set_aside_tail(std::uint64_t offset, const std::string& to) override {
        OwnerAlone owner;
        write_new_file(to, std::string_view(read_all(no_limit)).substr(offset), owner.attributes());
        cut(offset);
    }

  private:
    Handle file_;
    std::string path_;
};

class WindowsFiles : public Files {
  public:
    std::string read(const std::string& path, std::uint64_t limit) override {
        const Handle file = open_handle(path, {GENERIC_READ, share_all, OPEN_EXISTING});
        if (!file.valid()) fail_to_open(path, "read");
        return read_within(file.get(), limit, path);
    }

    std::string read_input(std::uint64_t limit) override {
        return read_within(GetStdHandle(STD_INPUT_HANDLE), limit, "standard input");
    }

    bool is_folder(const std::string& path) override { return names_folder(path); }

    std::vector<FolderEntry> list(const std::string& folder) override { return list_folder(folder); }

    std::string resolved(const std::string& path) override {
        const Handle file =
            open_handle(path, {0, share_all, OPEN_EXISTING, nullptr, FILE_FLAG_BACKUP_SEMANTICS});
        if (!file.valid()) fail(path, "find", GetLastError());
        std::wstring name(GetFinalPathNameByHandleW(file.get(), nullptr, 0, 0), L'\0');
        name.resize(GetFinalPathNameByHandleW(file.get(), name.data(), static_cast<DWORD>(name.size()), 0));
        if (name.empty()) fail(path, "find", GetLastError());
        const bool network = name.rfind(L"\\\\?\\UNC\\", 0) == 0;
        name.erase(0, network ? 7 : name.rfind(L"\\\\?\\", 0) == 0 ? 4 : 0);
        return with_slashes((network ? "/" : "") + utf8_text(name));
    }

    bool exists(const std::string& path) override {
        if (GetFileAttributesW(native(path).c_str()) != INVALID_FILE_ATTRIBUTES) return true;
        const DWORD error = GetLastError();
        if (is_absent(error)) return false;
        fail(path, "look at", error);
    }

    // The lock is that others may read meanwhile and nobody may write: what the system sees to by itself, for
    // editors too.
    std::unique_ptr<AppendFile> open_for_append(const std::string& path) override {
        OwnerAlone owner;
        Handle file = open_handle(path, {GENERIC_READ | GENERIC_WRITE, FILE_SHARE_READ, OPEN_ALWAYS,
                                         owner.attributes(), FILE_FLAG_WRITE_THROUGH});
        if (!file.valid() && is_held(GetLastError())) fail_as_locked(path);
        if (!file.valid()) fail_to_open(path, "open for writing");
        if (GetFileType(file.get()) != FILE_TYPE_DISK) fail_as_irregular(path);
        return std::make_unique<WindowsAppendFile>(std::move(file), path);
    }

    void write(const std::string& path, std::string_view text) override {
        if (names_folder(path)) fail_on_file(path, "write", EISDIR);
        const bool replaces = exists(path);
        const std::string beside = unused_name_beside(*this, path);
        try {
            write_new_file(beside, text);
            if (replaces && !copy_access(native(path), native(beside)))
                fail(path, "set permissions of", GetLastError());
            replace(beside, path);
        } catch (const FileError&) {
            DeleteFileW(native(beside).c_str());
            throw;
        }
    }
};

}  // namespace

const std::string_view path_separators = "/\\:";

bool is_rooted(std::string_view path) {
    return !path.empty() && (path.front() == '/' || path.front() == '\\' || path.substr(1, 1) == ":");
}

std::string with_slashes(std::string path) {
    std::replace(path.begin(), path.end(), '\\', '/');
    return path;
}

Files& system_files() {
    static WindowsFiles files;
    return files;
}

}  // namespace halfsplit
