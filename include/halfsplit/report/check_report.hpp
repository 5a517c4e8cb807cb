// What `check` found in a set of files, as text, as data and as SARIF. Pure.
#pragma once

#include "halfsplit/base/finding.hpp"
#include "halfsplit/base/text_edit.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::report {

struct CheckedFinding {
    Finding finding;
    // The same for the same finding of the same file, wherever its line has moved to: 16 hexadecimal digits.
    std::string fingerprint;
    bool known = false;                              // in the baseline
    std::optional<Location> mended_from, mended_to;  // what the safe mend replaces, where there is one
    std::string mended_text;
};

struct CheckedFile {
    std::string file;
    bool readable = true;      // a file, of a size to be read
    bool sound = false;        // no error, whatever severity is shown for it: the file can be used
    bool passed_over = false;  // of another format of ours, in a folder: nothing is said of it
    std::size_t networks = 0, parts = 0, points = 0;  // of a sound file
    std::size_t switched_off = 0;                     // findings whose severity is set to "off"
    std::vector<CheckedFinding> findings;
};

struct CheckedSet {
    std::vector<CheckedFile> files;  // in the order in which they were named
    bool baseline = false;           // whether findings were held against one
    std::size_t mended = 0;          // in the baseline, and found no more
};

std::string check_text(const CheckedSet& set);
// Schema docs/schema/check.schema.json.
nlohmann::json check_json(const CheckedSet& set);
// SARIF 2.1.0 (OASIS Standard, 27 March 2020), one run. Columns count characters. Paths that are not absolute
// become relative references.
nlohmann::json check_sarif(const CheckedSet& set, const std::string& version);

}  // namespace halfsplit::report
