// A recommendation to and from JSON (schema docs/schema/next.schema.json). OL is the string "OL".
#pragma once

#include "halfsplit/advice/recommendation.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>

namespace halfsplit::advice {

nlohmann::json to_json(const Recommendation& advice);
// Throws std::invalid_argument on text that to_json did not write.
Recommendation recommendation_from_json(const nlohmann::json& in);

// The same as text of one line, as it stands in a job log.
std::string to_text(const Recommendation& recommendation);
Recommendation from_text(std::string_view text);

}  // namespace halfsplit::advice
