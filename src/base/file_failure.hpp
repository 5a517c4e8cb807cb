// A file that could not be read, as a finding like any other.
#pragma once

#include "halfsplit/base/file_error.hpp"
#include "halfsplit/base/finding.hpp"

#include <cstdint>
#include <string>

namespace halfsplit {

// `kind`: what sort of file was wanted, in a word. `limit`: bytes, for a file that has more.
Finding about_failure(const FileError& error, const std::string& path, const std::string& kind,
                      std::uint64_t limit);

}  // namespace halfsplit
