#include "base/file_failure.hpp"

#include <utility>

namespace halfsplit {

namespace {

Finding about_file(const std::string& id, const std::string& path, std::string message, std::string next) {
    Finding finding;
    finding.id = id;
    finding.location.file = path;
    finding.message = std::move(message);
    finding.next_step = std::move(next);
    return finding;
}

}  // namespace

Finding about_failure(const FileError& error, const std::string& path, const std::string& kind,
                      std::uint64_t limit) {
    switch (error.kind()) {
        case FileError::Kind::Missing:
            return about_file("file-missing", path, "there is no such file", "check the path");
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
