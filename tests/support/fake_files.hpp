// Files in memory. Every call is recorded, any call can be made to fail, and everything that was not synced
// can be dropped, as a power cut would.
#pragma once

#include "halfsplit/base/files.hpp"

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::test {

enum class Operation { Create, Write, Sync, SyncFolder, Cut, Rename };

struct Call {
    Operation operation;
    std::string path;
    std::size_t bytes = 0;  // of a write
};

class FakeFiles : public Files {
  public:
    FakeFiles();
    ~FakeFiles() override;

    std::string read(const std::string& path, std::uint64_t limit) override;
    bool exists(const std::string& path) override;
    // A folder is there where a path goes on behind it.
    bool is_folder(const std::string& path) override;
    std::vector<FolderEntry> list(const std::string& folder) override;
    std::string read_input(std::uint64_t limit) override;
    std::string resolved(const std::string& path) override;  // in memory there are no links
    std::unique_ptr<AppendFile> open_for_append(const std::string& path) override;
    void write(const std::string& path, std::string_view text) override;

    // A file that has been on disk for long.
    void put(const std::string& path, std::string text);
    std::string input;  // what standard input holds
    // A folder that may not be listed.
    void lock_folder(const std::string& folder) { locked_folders_.insert(folder); }
    // What a reader sees now; fails the test's expectations by throwing FileError when there is none.
    std::string text_of(const std::string& path) const;
    std::vector<std::string> paths() const;

    const std::vector<Call>& calls() const;
    std::size_t count(Operation operation) const;

    // The call after `calls_from_now` further ones throws FileError; a write then leaves `bytes_written` of
    // its text. `times`: how many calls in a row fail.
    void fail_after(std::size_t calls_from_now, std::size_t bytes_written = 0, std::size_t times = 1);
    // The same, counting calls of one operation only.
    void fail_operation(Operation operation, std::size_t calls_from_now, std::size_t bytes_written = 0,
                        std::size_t times = 1);
    void stop_failing();

    // The power goes: what was written since a file's last sync is lost but for its first `kept_bytes`, files
    // whose folder was not synced are gone, locks are free.
    void drop_unsynced(std::size_t kept_bytes = 0);

    struct Disk;

  private:
    std::shared_ptr<Disk> disk_;
    std::set<std::string> locked_folders_;
};

}  // namespace halfsplit::test
