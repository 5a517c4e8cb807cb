// Files as the program needs them, behind one interface, so that another operating system is a second source
// file and tests can run without a disk: src/base/files_posix.cpp, files_windows.cpp. Paths are UTF-8.
#pragma once

#include "halfsplit/base/file_error.hpp"

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

// A file open for appending under an exclusive lock, held until destruction.
class AppendFile {
  public:
    virtual ~AppendFile() = default;
    // Everything now in the file. It is synced first: what another process wrote and did not live to sync is
    // on disk before anybody acts on it. Throws FileError for more than `limit` bytes.
    virtual std::string read_all(std::uint64_t limit) = 0;
    // One write of the whole text, then a data sync. Returns only when the text is on disk; throws FileError
    // otherwise, in which case the caller must not acknowledge, and any part of the text may stand in the
    // file.
    virtual void append_durably(std::string_view text) = 0;
    // Shortens the file to `length` bytes, synced.
    virtual void cut(std::uint64_t length) = 0;
    // Sets aside everything from `offset` on in a new file named `to`, for its owner alone, synced (with its
    // folder) before the cut is made. Throws FileError, and cuts nothing, when `to` exists.
    virtual void set_aside_tail(std::uint64_t offset, const std::string& to) = 0;
};

struct FolderEntry {
    // A link to a file is a file; a link to a folder, a pipe and the like are something else, so that nobody
    // who goes into every folder walks in circles or waits for a reader.
    enum class Kind { File, Folder, Other } kind = Kind::Other;
    std::string name;
};

// Every member of both classes throws FileError, whose text names the path, what failed and what to do.
class Files {
  public:
    virtual ~Files() = default;
    // Throws FileError for a missing file, a folder, no permission, or more than `limit` bytes. A pipe will
    // do.
    virtual std::string read(const std::string& path, std::uint64_t limit) = 0;
    virtual bool exists(const std::string& path) = 0;
    virtual bool is_folder(const std::string& path) = 0;  // false where there is nothing
    // What stands in a folder, in order of its names' bytes.
    virtual std::vector<FolderEntry> list(const std::string& folder) = 0;
    // Everything from standard input, to its end.
    virtual std::string read_input(std::uint64_t limit) = 0;
    // The path without links, "." and "..", from the root.
    virtual std::string resolved(const std::string& path) = 0;
    // Creates the file when it is missing, for its owner alone to read and write. Syncs the folder whenever
    // the file is empty: the process that created it may have ended before it could. Throws FileError when
    // another holder has it, or when it is no regular file.
    virtual std::unique_ptr<AppendFile> open_for_append(const std::string& path) = 0;
    // Replaces the file at `path` in one step (write beside it, sync, rename, sync the folder). Keeps the
    // permissions of what it replaces.
    virtual void write(const std::string& path, std::string_view text) = 0;
};

Files& system_files();  // those of the disk

}  // namespace halfsplit
