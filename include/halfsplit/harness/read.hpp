// From a harness file to the model, with every finding of the file in one run.
#pragma once

#include "halfsplit/base/files.hpp"
#include "halfsplit/base/finding.hpp"
#include "halfsplit/base/origins.hpp"
#include "halfsplit/harness/harness.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::harness {

// Larger files are refused unread.
inline constexpr std::uint64_t largest_file = 64ULL << 20U;

struct ReadResult {
    std::optional<Harness> harness;  // empty when any finding is an error
    std::vector<Finding> findings;   // errors and warnings in order of line and column
};

struct IncludeRules {
    bool outside = false;  // whether libraries may lie outside the folder of the harness file
};

// From a document, wherever it came from; the findings are placed by `origins`. Never throws on bad input.
// Linear in the document but for the sorting of findings.
ReadResult read_document(const nlohmann::json& document, const Origins& origins);

// From a text that stands alone: it can include nothing. Never throws on bad input. Linear in the file but
// for the sorting of findings.
ReadResult read_harness(std::string_view text, const std::string& file_name);

// The same from a path, with the libraries that it includes: a missing file, a folder and an oversized file
// are findings too. `text`: the file as it stands, or as one that includes nothing any more.
ReadResult read_harness_file(Files& files, const std::string& path, std::string* text = nullptr,
                             const IncludeRules& rules = {});
// The same from a text that was read already.
ReadResult read_harness_text(Files& files, std::string_view content, const std::string& path,
                             std::string* text = nullptr, const IncludeRules& rules = {});

}  // namespace halfsplit::harness
