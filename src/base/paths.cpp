#include "base/paths.hpp"

namespace halfsplit {

std::string folder_part(std::string_view path) {
    return std::string(path.substr(0, path.find_last_of(path_separators) + 1));
}

std::string folder_of(std::string_view path) {
    std::string folder = folder_part(path);
    if (folder.empty()) return ".";
    const std::size_t names_end = folder.find_last_not_of("/\\");
    const bool root = names_end == std::string::npos || folder[names_end] == ':';  // "/", "C:", "C:/"
    if (!root) folder.pop_back();
    return folder;
}

bool same_file(Files& files, const std::string& one, const std::string& other) {
    if (one == other) return true;
    return files.exists(one) && files.exists(other) && files.resolved(one) == files.resolved(other);
}

// By way of char8_t, which means UTF-8; of char only the system knows what it means.
std::filesystem::path path_of_text(std::string_view text) {
    return std::u8string(text.begin(), text.end());
}

std::string text_of_path(const std::filesystem::path& path) {
    const std::u8string text = path.generic_u8string();
    return {text.begin(), text.end()};
}

}  // namespace halfsplit
