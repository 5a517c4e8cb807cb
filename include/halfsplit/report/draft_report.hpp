// What came of drafting, as data and as text. Pure.
#pragma once

#include "halfsplit/draft/drafted.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>

namespace halfsplit::report {

// What was taken for granted and what was left out, in lines of at most `columns`; of more than forty, those
// with the same reason in one. Empty where there is nothing to tell.
std::string draft_notes(const draft::Drafted& drafted, std::size_t columns = 80);

// Schema: docs/schema/draft.schema.json. `source`: the file that was read. `written`: the file that was
// written, empty where none was.
nlohmann::json draft_json(const draft::Drafted& drafted, const std::string& source,
                          const std::string& written);

}  // namespace halfsplit::report
