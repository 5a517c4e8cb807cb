// What every system says of files in the same words, whichever calls it has for them.
#pragma once

#include "halfsplit/base/files.hpp"

#include <string>
#include <string_view>

namespace halfsplit {

// `error`: a number of errno, on every system; `action`: "read", "create", ...
[[noreturn]] void fail_on_file(const std::string& path, std::string_view action, int error);
[[noreturn]] void fail_as_larger(const std::string& path, std::uint64_t limit);
[[noreturn]] void fail_as_locked(const std::string& path);
[[noreturn]] void fail_as_irregular(const std::string& path);

// Where a file is written before it takes the place of another: a name in the same folder that is free.
std::string unused_name_beside(Files& files, const std::string& path);

// As Files::list.
std::vector<FolderEntry> list_folder(const std::string& folder);

}  // namespace halfsplit
