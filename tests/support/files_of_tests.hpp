// Files of the project that tests read, by their path from its top.
#pragma once

#include <string>

namespace halfsplit::test {

std::string path_of(const std::string& path);
std::string read_file(const std::string& path);

}  // namespace halfsplit::test
