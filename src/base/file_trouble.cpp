#include "base/file_trouble.hpp"

#include <fmt/format.h>

#include "base/paths.hpp"

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <system_error>

namespace halfsplit {

namespace {

FileError::Kind kind_of_error(int error) {
    switch (error) {
        case ENOENT:
        case ENOTDIR:
            return FileError::Kind::Missing;
        case EISDIR:
            return FileError::Kind::IsFolder;
        case EACCES:
        case EPERM:
        case EROFS:
            return FileError::Kind::Denied;
        default:
            return FileError::Kind::Failed;
    }
}

std::string advice_for(std::string_view action, int error) {
    if (action == "sync" && (error == EINVAL || error == ENOTSUP))
        return "The file system there cannot say when something is safe on the disk: choose another place.";
    switch (error) {
        case ENOENT:
        case ENOTDIR:
            return "Check the path.";
        case EISDIR:
            return "Name a file in it.";
        case EACCES:
        case EPERM:
            return "Check who owns it and who may write there, or choose another place.";
        case EROFS:
            return "The disk can only be read: choose another place.";
        case ENOSPC:
#ifdef EDQUOT  // Windows has quotas, but no such number
        case EDQUOT:
#endif
            return "Make room on the disk and try again.";
        case EFBIG:
            return "The file may not grow further here: choose another place.";
        default:
            return "Check the disk before trusting it with more.";
    }
}

FolderEntry::Kind kind_of_entry(const std::filesystem::directory_entry& entry) {
    std::error_code error;  // of an entry that is gone meanwhile, or a link to nothing: something else
    if (entry.is_regular_file(error)) return FolderEntry::Kind::File;
    if (entry.is_directory(error) && !entry.is_symlink(error)) return FolderEntry::Kind::Folder;
    return FolderEntry::Kind::Other;
}

}  // namespace

void fail_on_file(const std::string& path, std::string_view action, int error) {
    throw FileError(kind_of_error(error),
                    fmt::format("cannot {} '{}': {}. {}", action, path,
                                std::generic_category().message(error), advice_for(action, error)));
}

void fail_as_larger(const std::string& path, std::uint64_t limit) {
    throw FileError(FileError::Kind::TooLarge, fmt::format("'{}' is larger than {} bytes, the most that is "
                                                           "read. Check that it is the file you meant.",
                                                           path, limit));
}

void fail_as_locked(const std::string& path) {
    throw FileError(FileError::Kind::Locked,
                    fmt::format("'{}' is open for writing elsewhere, and one writer at a time is the rule. "
                                "End the other one, or wait for it.",
                                path));
}

void fail_as_irregular(const std::string& path) {
    throw FileError(FileError::Kind::Failed,
                    fmt::format("'{}' is not a regular file. Name a file on a disk.", path));
}

std::string unused_name_beside(Files& files, const std::string& path) {
    std::string name = path + ".new";
    for (int i = 2; files.exists(name); ++i) name = fmt::format("{}.new-{}", path, i);
    return name;
}

std::vector<FolderEntry> list_folder(const std::string& folder) {
    namespace fs = std::filesystem;
    std::error_code error;
    fs::directory_iterator entries(path_of_text(folder), error);
    std::vector<FolderEntry> result;
    for (; !error && entries != fs::directory_iterator(); entries.increment(error))
        result.push_back({kind_of_entry(*entries), text_of_path(entries->path().filename())});
    if (error) fail_on_file(folder, "list the folder", error.default_error_condition().value());
    std::sort(result.begin(), result.end(),
              [](const FolderEntry& a, const FolderEntry& b) { return a.name < b.name; });
    return result;
}

}  // namespace halfsplit
