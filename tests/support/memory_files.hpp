// Files in memory, for tests: what can be read, and what goes wrong when something is.
#pragma once

#include "halfsplit/base/files.hpp"

#include <map>
#include <set>
#include <string>

namespace halfsplit::test {

class MemoryFiles final : public Files {
  public:
    std::map<std::string, std::string> texts;
    std::set<std::string> folders;
    std::set<std::string> locked_away;

    std::string read(const std::string& path, std::uint64_t limit) override {
        if (folders.contains(path)) throw FileError(FileError::Kind::IsFolder, path + ": is a folder");
        if (locked_away.contains(path)) throw FileError(FileError::Kind::Denied, path + ": may not be read");
        const auto found = texts.find(path);
        if (found == texts.end()) throw FileError(FileError::Kind::Missing, path + ": missing");
        if (found->second.size() > limit) throw FileError(FileError::Kind::TooLarge, path + ": too large");
        return found->second;
    }
    bool exists(const std::string& path) override { return texts.contains(path) || folders.contains(path); }
    bool is_folder(const std::string& path) override { return folders.contains(path); }
    std::vector<FolderEntry> list(const std::string&) override { return {}; }
    std::string read_input(std::uint64_t) override { return {}; }
    std::unique_ptr<AppendFile> open_for_append(const std::string& path) override {
        throw FileError(FileError::Kind::Denied, path + ": these files are for reading");
    }
    void write(const std::string& path, std::string_view text) override { texts[path] = std::string(text); }
};

}  // namespace halfsplit::test
