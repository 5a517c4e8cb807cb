// Files by the calls of POSIX; files_windows.cpp has those of Windows.
#include "halfsplit/base/files.hpp"

#include "base/file_trouble.hpp"
#include "base/paths.hpp"

#include <array>
#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <filesystem>
#include <limits>
#include <sys/file.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace halfsplit {

namespace {

constexpr mode_t new_file_mode = 0666;  // less the user's umask
constexpr mode_t log_mode = 0600;       // a customer's vehicle is nobody else's business

class Descriptor {
  public:
    explicit Descriptor(int number) : number_(number) {}
    Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    Descriptor& operator=(Descriptor&&) = delete;
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    int number() const { return number_; }
    bool valid() const { return number_ >= 0; }

  private:
    int number_;
};

// Repeats a call that a signal interrupted.
template <typename Call>
auto uninterrupted(Call call) {
    auto result = call();
    while (result == -1 && errno == EINTR) result = call();
    return result;
}

Descriptor open_file(const std::string& path, int flags, mode_t mode = new_file_mode) {
    return Descriptor(uninterrupted([&] { return ::open(path.c_str(), flags | O_CLOEXEC, mode); }));
}

struct stat status_of(const Descriptor& file, const std::string& path) {
    struct stat status {};
    if (::fstat(file.number(), &status) != 0) fail_on_file(path, "look at", errno);
    return status;
}

// A new name is on disk only when its folder is.
void sync_folder_of(const std::string& path) {
    const std::string folder = folder_of(path);
    const Descriptor descriptor = open_file(folder, O_RDONLY | O_DIRECTORY);
    if (!descriptor.valid()) fail_on_file(folder, "open the folder", errno);
    const int result = uninterrupted([&] { return ::fsync(descriptor.number()); });
    // EINVAL: a file system that keeps no names to be synced (some network and user-space ones).
    if (result != 0 && errno != EINVAL) fail_on_file(folder, "sync the folder", errno);
}

void sync_data(const Descriptor& file, const std::string& path) {
    if (uninterrupted([&] { return ::fdatasync(file.number()); }) != 0) fail_on_file(path, "sync", errno);
}

// One write in all but name: the kernel takes a text in several pieces only when room runs out or a signal
// comes.
void write_whole(const Descriptor& file, std::string_view text, const std::string& path) {
    while (!text.empty()) {
        const ssize_t written =
            uninterrupted([&] { return ::write(file.number(), text.data(), text.size()); });
        if (written < 0) fail_on_file(path, "write", errno);
        text.remove_prefix(static_cast<std::size_t>(written));
    }
}

// From the current position to the end, or one byte more than `limit`.
std::string read_up_to(const Descriptor& file, std::uint64_t limit, const std::string& path) {
    std::string text;
    std::array<char, 1U << 16U> piece{};
    while (text.size() <= limit) {
        const ssize_t got = uninterrupted([&] { return ::read(file.number(), piece.data(), piece.size()); });
        if (got < 0) fail_on_file(path, "read", errno);
        if (got == 0) break;
        text.append(piece.data(), static_cast<std::size_t>(got));
    }
    return text;
}

// The same, and an error where there is more, unread where that shows beforehand.
std::string read_within(const Descriptor& file, std::uint64_t limit, const std::string& path) {
    const struct stat status = status_of(file, path);
    std::string text;
    const bool known = S_ISREG(status.st_mode) && static_cast<std::uint64_t>(status.st_size) > limit;
    if (!known) text = read_up_to(file, limit, path);
    if (known || text.size() > limit) fail_as_larger(path, limit);
    return text;
}

void write_new_file(const std::string& path, std::string_view text, mode_t mode = new_file_mode) {
    const Descriptor file = open_file(path, O_WRONLY | O_CREAT | O_EXCL, mode);
    if (!file.valid()) fail_on_file(path, "create", errno);
    write_whole(file, text, path);
    sync_data(file, path);
    sync_folder_of(path);
}

constexpr std::uint64_t no_limit = std::numeric_limits<std::uint64_t>::max();

class PosixAppendFile : public AppendFile {
  public:
    PosixAppendFile(Descriptor file, std::string path) : file_(std::move(file)), path_(std::move(path)) {}

    std::string read_all(std::uint64_t limit) override {
        sync_data(file_, path_);
        if (::lseek(file_.number(), 0, SEEK_SET) < 0) fail_on_file(path_, "read", errno);
        return read_within(file_, limit, path_);
    }

    void append_durably(std::string_view text) override {
        write_whole(file_, text, path_);
        sync_data(file_, path_);
    }

    void cut(std::uint64_t length) override {
        if (uninterrupted([&] { return ::ftruncate(file_.number(), static_cast<off_t>(length)); }) != 0)
            fail_on_file(path_, "shorten", errno);
        sync_data(file_, path_);
    }

    void set_aside_tail(std::uint64_t offset, const std::string& to) override {
        write_new_file(to, std::string_view(read_all(no_limit)).substr(offset), log_mode);
        cut(offset);
    }

  private:
    Descriptor file_;
    std::string path_;
};

// Tries to create first, because only the creation says for certain that the file is new.
Descriptor open_or_create(const std::string& path) {
    Descriptor created = open_file(path, O_RDWR | O_APPEND | O_CREAT | O_EXCL, log_mode);
    if (created.valid() || errno != EEXIST) return created;
    return open_file(path, O_RDWR | O_APPEND);
}

class PosixFiles : public Files {
  public:
    std::string read(const std::string& path, std::uint64_t limit) override {
        const Descriptor file = open_file(path, O_RDONLY);
        if (!file.valid()) fail_on_file(path, "read", errno);
        if (S_ISDIR(status_of(file, path).st_mode)) fail_on_file(path, "read", EISDIR);
        return read_within(file, limit, path);
    }

    std::string read_input(std::uint64_t limit) override {
        return read_within(Descriptor(::dup(STDIN_FILENO)), limit, "standard input");
    }

    bool is_folder(const std::string& path) override {
        struct stat status {};
        return ::stat(path.c_str(), &status) == 0 && S_ISDIR(status.st_mode);
    }

    std::vector<FolderEntry> list(const std::string& folder) override { return list_folder(folder); }

    std::string resolved(const std::string& path) override {
        std::error_code failed;
        const auto result = std::filesystem::canonical(path, failed);
        if (failed) fail_on_file(path, "find", failed.value());
        return result.string();
    }

    bool exists(const std::string& path) override {
        struct stat status {};
        if (::stat(path.c_str(), &status) == 0) return true;
        if (errno == ENOENT || errno == ENOTDIR) return false;
        fail_on_file(path, "look at", errno);
    }

    std::unique_ptr<AppendFile> open_for_append(const std::string& path) override {
        Descriptor file = open_or_create(path);
        if (!file.valid()) fail_on_file(path, "open for writing", errno);
        const struct stat status = status_of(file, path);
        if (!S_ISREG(status.st_mode)) fail_as_irregular(path);
        if (uninterrupted([&] { return ::flock(file.number(), LOCK_EX | LOCK_NB); }) != 0) {
            if (errno != EWOULDBLOCK) fail_on_file(path, "lock", errno);
            fail_as_locked(path);
        }
        if (status_of(file, path).st_size == 0) sync_folder_of(path);
        return std::make_unique<PosixAppendFile>(std::move(file), path);
    }

    void write(const std::string& path, std::string_view text) override {
        struct stat old {};
        const bool replaces = ::stat(path.c_str(), &old) == 0;
        if (replaces && S_ISDIR(old.st_mode)) fail_on_file(path, "write", EISDIR);
        const std::string beside = unused_name_beside(*this, path);
        try {
            write_new_file(beside, text);
            if (replaces && ::chmod(beside.c_str(), old.st_mode & 07777U) != 0)
                fail_on_file(path, "set permissions of", errno);
            if (::rename(beside.c_str(), path.c_str()) != 0) fail_on_file(path, "replace", errno);
        } catch (const FileError&) {
            ::unlink(beside.c_str());
            throw;
        }
        sync_folder_of(path);
    }
};

}  // namespace

const std::string_view path_separators = "/";

bool is_rooted(std::string_view path) {
    return !path.empty() && path.front() == '/';
}

std::string with_slashes(std::string path) {
    return path;
}

Files& system_files() {
    static PosixFiles files;
    return files;
}

}  // namespace halfsplit
