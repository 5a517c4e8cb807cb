#include "halfsplit/advice/safety.hpp"

namespace halfsplit::advice {

bool safe_for_ohms(const job::State& state) {
    if (!state.safe_state || !state.safe_state_at) return false;
    const job::SafeState& told = *state.safe_state;
    if (!told.ignition_off || !told.bus_asleep || !told.battery_off) return false;
    const bool scanned_since = !state.scans.empty() && state.scans.back().sequence > *state.safe_state_at;
    const bool proved_since = state.verified_at && *state.verified_at > *state.safe_state_at;
    return !scanned_since && !proved_since;
}

}  // namespace halfsplit::advice
