// Events to and from JSON, as they stand in a log's line.
#pragma once

#include "halfsplit/job/event.hpp"

#include <nlohmann/json_fwd.hpp>

namespace halfsplit::job {

// The number in the "opened" record that says how the lines are to be read.
inline constexpr int format_version = 1;

// {"kind": "...", ...members of the event..., "minutes": n}; OL is written as the string "OL". Throws
// std::invalid_argument for what a log cannot hold: text that is not UTF-8, a figure that is neither finite
// nor OL, an amend without its event.
nlohmann::json to_json(const Event& event);
// The exact reverse. Throws std::invalid_argument with what is wrong, in words: a kind or member that is not
// known to this version, a member missing or of another type, a figure out of range.
Event event_from_json(const nlohmann::json& json);

}  // namespace halfsplit::job
