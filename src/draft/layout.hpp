// A harness file as a person would lay it out: one part a line where it fits, its members side by side.
#pragma once

#include <nlohmann/json.hpp>

#include <string>

namespace halfsplit::draft {

// Lines of at most 110 columns wherever a single member is not longer by itself; a line end at the end. Text
// that is not UTF-8 is mended with replacement characters.
std::string laid_out(const nlohmann::ordered_json& harness);

}  // namespace halfsplit::draft
