// What tests of the real disk have in common.
#pragma once

#include "halfsplit/base/files.hpp"

#include "support/catch.hpp"
#include "support/temporary_folder.hpp"

#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>

namespace halfsplit::test {

template <typename Action>
FileError error_of(Action action) {
    try {
        action();
    } catch (const FileError& error) {
        return error;
    }
    FAIL("no FileError was thrown");
    throw std::logic_error("not reached");
}

inline void put(const std::string& path, std::string_view text) {
    std::ofstream(path, std::ios::binary) << text;
}

inline std::string read(const std::string& path) {
    return system_files().read(path, 1U << 20U);
}

inline bool says(const FileError& error, const std::string& words) {
    return std::string(error.what()).find(words) != std::string::npos;
}

}  // namespace halfsplit::test
