// Paths as text, in UTF-8 on every system. Between names stands "/"; Windows takes "\" as well, and names a
// drive: what the system takes is asked of it (files_posix.cpp, files_windows.cpp).
#pragma once

#include "halfsplit/base/files.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace halfsplit {

// The characters behind which a name begins.
extern const std::string_view path_separators;
// Says where it is by itself: from a root, or on a drive.
bool is_rooted(std::string_view path);
// With "/" between names, whatever the system takes besides.
std::string with_slashes(std::string path);

// All before the last name, with what stands between them; empty where there is only a name.
std::string folder_part(std::string_view path);
// The folder that a file is in, as it can be asked for: "." where none is named.
std::string folder_of(std::string_view path);

// Whether both names lead to one file that is there, or are the same.
bool same_file(Files& files, const std::string& one, const std::string& other);

// The standard library's paths, with no character lost on the way.
std::filesystem::path path_of_text(std::string_view text);
std::string text_of_path(const std::filesystem::path& path);

}  // namespace halfsplit
