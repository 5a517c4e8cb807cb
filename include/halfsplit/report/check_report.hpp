// What `check` found in a set of files, as text and as data. Pure.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <vector>

namespace halfsplit::report {

struct CheckedFile {
    std::string file;
    bool readable = true;                             // a file, of a size to be read
    std::size_t networks = 0, parts = 0, points = 0;  // of a sound file
    std::vector<Finding> findings;
};

std::string check_text(const std::vector<CheckedFile>& files);
nlohmann::json check_json(const std::vector<CheckedFile>& files);

}  // namespace halfsplit::report
