#include "support/fake_files.hpp"

#include <algorithm>
#include <filesystem>

namespace halfsplit::test {

namespace {

using Kind = FileError::Kind;

struct FakeFile {
    std::string text;                        // what a reader sees
    std::optional<std::string> synced = {};  // what a power cut leaves, once the name is there
    bool name_synced = false;
    bool locked = false;
};

}  // namespace

struct FakeFiles::Disk {
    std::map<std::string, std::shared_ptr<FakeFile>> files;
    std::vector<Call> calls;
    std::optional<Operation> failing;  // empty: any operation
    std::size_t calls_until_failure = 0, failures = 0, bytes_written = 0;

    // Records a call and tells whether it is to fail.
    bool fails(Operation operation, const std::string& path, std::size_t bytes = 0) {
        calls.push_back({operation, path, bytes});
        if (failures == 0 || (failing && *failing != operation)) return false;
        if (calls_until_failure > 0) {
            --calls_until_failure;
            return false;
        }
        --failures;
        return true;
    }

    void call(Operation operation, const std::string& path) {
        if (fails(operation, path)) throw FileError(Kind::Failed, "made to fail: " + path);
    }

    void write(const std::string& path, FakeFile& file, std::string_view text) {
        if (fails(Operation::Write, path, text.size())) {
            file.text += text.substr(0, bytes_written);
            throw FileError(Kind::Failed, "disk full, made to fail: " + path);
        }
        file.text += text;
    }

    void sync(const std::string& path, FakeFile& file) {
        call(Operation::Sync, path);
        file.synced = file.text;
    }

    void sync_folder(const std::string& path, FakeFile& file) {
        call(Operation::SyncFolder, path);
        file.name_synced = true;
    }

    std::shared_ptr<FakeFile> find(const std::string& path) const {
        const auto found = files.find(path);
        if (found == files.end()) throw FileError(Kind::Missing, "no such file: " + path);
        return found->second;
    }
};

namespace {

class FakeAppendFile : public AppendFile {
  public:
    FakeAppendFile(std::shared_ptr<FakeFiles::Disk> disk, std::string path, std::shared_ptr<FakeFile> file)
        : disk_(std::move(disk)), path_(std::move(path)), file_(std::move(file)) {
        file_->locked = true;
    }
    ~FakeAppendFile() override { file_->locked = false; }
    FakeAppendFile(const FakeAppendFile&) = delete;
    FakeAppendFile& operator=(const FakeAppendFile&) = delete;

    std::string read_all(std::uint64_t limit) override {
        disk_->sync(path_, *file_);
        if (file_->text.size() > limit) throw FileError(Kind::TooLarge, path_ + " is too large");
        return file_->text;
    }
    void append_durably(std::string_view text) override {
        disk_->write(path_, *file_, text);
        disk_->sync(path_, *file_);
    }
    void cut(std::uint64_t length) override {
        disk_->call(Operation::Cut, path_);
        file_->text.resize(length);
        disk_->sync(path_, *file_);
    }
    void set_aside_tail(std::uint64_t offset, const std::string& to) override {
        disk_->call(Operation::Create, to);
        if (disk_->files.count(to) > 0) throw FileError(Kind::Failed, "exists already: " + to);
        const auto aside = std::make_shared<FakeFile>();
        disk_->files[to] = aside;
        disk_->write(to, *aside, std::string_view(file_->text).substr(offset));
        disk_->sync(to, *aside);
        disk_->sync_folder(to, *aside);
        cut(offset);
    }

  private:
    std::shared_ptr<FakeFiles::Disk> disk_;
    std::string path_;
    std::shared_ptr<FakeFile> file_;
};

}  // namespace

FakeFiles::FakeFiles() : disk_(std::make_shared<Disk>()) {}
FakeFiles::~FakeFiles() = default;

std::string FakeFiles::read(const std::string& path, std::uint64_t limit) {
    std::string text = disk_->find(path)->text;
    if (text.size() > limit) throw FileError(Kind::TooLarge, "too large: " + path);
    return text;
}

std::string FakeFiles::resolved(const std::string& path) {
    return ("/" / std::filesystem::path(path)).lexically_normal().string();
}

bool FakeFiles::exists(const std::string& path) {
    return disk_->files.count(path) > 0;
}

bool FakeFiles::is_folder(const std::string& path) {
    const auto first = disk_->files.lower_bound(path + '/');
    return first != disk_->files.end() && first->first.rfind(path + '/', 0) == 0;
}

std::vector<FolderEntry> FakeFiles::list(const std::string& folder) {
    if (locked_folders_.contains(folder))
        throw FileError(Kind::Denied, "cannot list the folder '" + folder + "': not allowed.");
    std::map<std::string, FolderEntry::Kind> entries;
    const std::string within = folder == "." ? "" : folder + '/';
    for (const auto& file : disk_->files) {
        if (file.first.rfind(within, 0) != 0) continue;
        const std::string rest = file.first.substr(within.size());
        const std::size_t slash = rest.find('/');
        const bool deeper = slash != std::string::npos;
        entries[rest.substr(0, slash)] = deeper ? FolderEntry::Kind::Folder : FolderEntry::Kind::File;
    }
    std::vector<FolderEntry> result;
    for (const auto& [name, kind] : entries) result.push_back({kind, name});
    return result;
}

std::string FakeFiles::read_input(std::uint64_t limit) {
    if (input.size() > limit) throw FileError(Kind::TooLarge, "too large: standard input");
    return input;
}

std::unique_ptr<AppendFile> FakeFiles::open_for_append(const std::string& path) {
    if (disk_->files.count(path) == 0) {
        disk_->call(Operation::Create, path);
        disk_->files[path] = std::make_shared<FakeFile>();
    }
    const auto file = disk_->find(path);
    if (file->locked) throw FileError(Kind::Locked, "locked: " + path);
    if (file->text.empty()) disk_->sync_folder(path, *file);
    return std::make_unique<FakeAppendFile>(disk_, path, file);
}

void FakeFiles::write(const std::string& path, std::string_view text) {
    const auto file = std::make_shared<FakeFile>();
    disk_->call(Operation::Create, path);
    disk_->write(path, *file, text);
    disk_->sync(path, *file);
    disk_->call(Operation::Rename, path);
    disk_->files[path] = file;
    disk_->sync_folder(path, *file);
}

void FakeFiles::put(const std::string& path, std::string text) {
    const auto file = std::make_shared<FakeFile>();
    file->text = std::move(text);
    file->synced = file->text;
    file->name_synced = true;
    disk_->files[path] = file;
}

std::string FakeFiles::text_of(const std::string& path) const {
    return disk_->find(path)->text;
}

std::vector<std::string> FakeFiles::paths() const {
    std::vector<std::string> all;
    for (const auto& entry : disk_->files) all.push_back(entry.first);
    return all;
}

const std::vector<Call>& FakeFiles::calls() const {
    return disk_->calls;
}

std::size_t FakeFiles::count(Operation operation) const {
    return static_cast<std::size_t>(
        std::count_if(disk_->calls.begin(), disk_->calls.end(),
                      [operation](const Call& call) { return call.operation == operation; }));
}

void FakeFiles::fail_after(std::size_t calls_from_now, std::size_t bytes_written, std::size_t times) {
    disk_->failing.reset();
    disk_->calls_until_failure = calls_from_now;
    disk_->bytes_written = bytes_written;
    disk_->failures = times;
}

void FakeFiles::fail_operation(Operation operation, std::size_t calls_from_now, std::size_t bytes_written,
                               std::size_t times) {
    fail_after(calls_from_now, bytes_written, times);
    disk_->failing = operation;
}

void FakeFiles::stop_failing() {
    disk_->failures = 0;
}

void FakeFiles::drop_unsynced(std::size_t kept_bytes) {
    for (auto it = disk_->files.begin(); it != disk_->files.end();) {
        if (!it->second->name_synced) {
            it = disk_->files.erase(it);
            continue;
        }
        // A new object: whoever still holds the old file writes into the void, as a process that died would.
        const auto after = std::make_shared<FakeFile>();
        const std::string synced = it->second->synced.value_or("");
        const std::string& seen = it->second->text;
        const std::string unsynced = seen.size() > synced.size() ? seen.substr(synced.size()) : "";
        after->text = synced + unsynced.substr(0, kept_bytes);
        after->synced = after->text;
        after->name_synced = true;
        it->second = after;
        ++it;
    }
}

}  // namespace halfsplit::test
