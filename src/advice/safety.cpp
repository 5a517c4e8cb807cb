#include "halfsplit/advice/safety.hpp"

namespace halfsplit::advice {

bool safe_for_ohms(const job::State& state) {
    if (!state.safe_state || !state.safe_state_at) return false;
    const job::SafeState& told = *state.safe_state;
    return told.ignition_off && told.bus_asleep && told.battery_off && circuit_now(state).battery_off;
}

electrics::Power power_now(const job::State& state) {
    const job::CircuitState circuit = circuit_now(state);
    if (circuit.battery_off) return electrics::Power::Off;
    return circuit.bus_asleep ? electrics::Power::Asleep : electrics::Power::Awake;
}

}  // namespace halfsplit::advice
