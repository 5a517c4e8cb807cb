// What is wrong with a file as a whole, most often that it could not be read, as a finding like any other.
#pragma once

#include "halfsplit/base/file_error.hpp"
#include "halfsplit/base/files.hpp"
#include "halfsplit/base/finding.hpp"

#include <cstdint>
#include <string>

namespace halfsplit {

Finding about_file(const std::string& id, const std::string& path, std::string message, std::string next);

// `kind`: what sort of file was wanted, in a word. `limit`: bytes, for a file that has more. `files`: asked
// for the name nearest to one that is not there.
Finding about_failure(const FileError& error, Files& files, const std::string& path, const std::string& kind,
                      std::uint64_t limit);

}  // namespace halfsplit
