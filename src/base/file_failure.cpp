#include "base/file_failure.hpp"

#include "halfsplit/base/text.hpp"

#include "base/paths.hpp"

#include <utility>
#include <vector>

namespace halfsplit {

Finding about_file(const std::string& id, const std::string& path, std::string message, std::string next) {
    Finding finding;
    finding.id = id;
    finding.location.file = path;
    finding.message = std::move(message);
    finding.next_step = std::move(next);
    return finding;
}

namespace {

// The file of the same folder whose name is nearest; empty where none is near or the folder cannot be listed.
std::string nearest_file(Files& files, const std::string& path) {
    const std::string folder = folder_part(path);
    std::vector<std::string> names;
    try {
        for (const FolderEntry& entry : files.list(folder_of(path))) {
            if (entry.kind == FolderEntry::Kind::File) names.push_back(entry.name);
        }
    } catch (const FileError&) {
        return {};
    }
    const std::string name = nearest_name(path.substr(folder.size()), names);
    return name.empty() ? name : folder + name;
}

Finding about_missing(Files& files, const std::string& path) {
    Finding finding = about_file("file-missing", path, "there is no such file", "check the path");
    finding.nearest = nearest_file(files, path);
    return finding;
}

}  // namespace

Finding about_failure(const FileError& error, Files& files, const std::string& path, const std::string& kind,
                      std::uint64_t limit) {
    switch (error.kind()) {
        case FileError::Kind::Missing:
            return about_missing(files, path);
        case FileError::Kind::IsFolder:
            return about_file("file-is-folder", path, "this is a folder", "name the " + kind + " file in it");
        case FileError::Kind::TooLarge:
            return about_file("file-too-large", path,
                              "the file is larger than " + std::to_string(limit >> 20U) + " MB",
                              "check that it is a " + kind + " file");
        default:
            return about_file("file-unreadable", path, error.what(), "check who may read it");
    }
}

}  // namespace halfsplit
