// Where a step goes and what comes before it, to and from JSON: the same for advice and for a card.
#pragma once

#include "halfsplit/advice/recommendation.hpp"

#include <nlohmann/json.hpp>

namespace halfsplit::advice {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(OtherWire, cavity, colour, circuit, look_alike)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Spot, name, part, part_name, kind, half, half_name, cavity, line, colour,
                                   place, place_name, clip, others)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(CoverStep, cover, name, off_minutes, on_minutes, cautions)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Preparation, step, spot, point, travel_to, travel_minutes, covers, minutes)

// In recommendation_json.cpp.
void to_json(nlohmann::json& out, const Aim& aim);
void from_json(const nlohmann::json& in, Aim& aim);

}  // namespace halfsplit::advice
