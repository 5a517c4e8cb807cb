// How the vehicle stands as told, and whether ohms may be measured: ignition off, bus asleep, battery off,
// told after the last time the bus was awake.
#pragma once

#include "halfsplit/electrics/assembly.hpp"
#include "halfsplit/job/state.hpp"

namespace halfsplit::advice {

// A scan and the proof of a repair need the bus awake, so the safe state has to be told anew after either.
bool safe_for_ohms(const job::State& state);

// Battery off, or on and the bus asleep or awake. Nothing told: awake.
electrics::Power power_now(const job::State& state);

}  // namespace halfsplit::advice
