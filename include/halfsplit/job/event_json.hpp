// Events to and from JSON, as they stand in a log's line.
#pragma once

#include "halfsplit/job/event.hpp"

#include <nlohmann/json_fwd.hpp>

namespace halfsplit::job {

// {"kind": "...", ...members of the event..., "minutes": n}; OL is written as the string "OL".
nlohmann::json to_json(const Event& event);
// Throws std::invalid_argument with what is wrong, in words.
Event event_from_json(const nlohmann::json& json);

}  // namespace halfsplit::job
