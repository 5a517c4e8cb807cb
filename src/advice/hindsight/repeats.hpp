// Readings and looks that were taken before in the same state of the circuit.
#pragma once

#include "halfsplit/job/event.hpp"
#include "halfsplit/job/state.hpp"

namespace halfsplit::advice {

// The first record that had the same; 0: none. `before`: the state the new one was entered in.
job::Sequence repeat_of(const job::Reading& reading, const job::CircuitState& circuit,
                        const job::State& before);
job::Sequence repeat_of(const job::Seen& seen, const job::State& before);

}  // namespace halfsplit::advice
