#include "support/files_of_tests.hpp"

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace halfsplit::test {

std::string path_of(const std::string& path) {
    std::string whole = HALFSPLIT_SOURCE_DIR "/";
    return whole.append(path);
}

std::string read_file(const std::string& path) {
    std::ifstream in(path_of(path), std::ios::binary);
    if (!in) throw std::runtime_error("no file " + path);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

}  // namespace halfsplit::test
