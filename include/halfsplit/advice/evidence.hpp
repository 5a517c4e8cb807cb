// From a job's state, which speaks in names, to evidence, which speaks in indices.
#pragma once

#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/state.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::advice {

// "ground", "supply" or a terminal's name; empty when the harness does not have it.
std::optional<diagnosis::Contact> contact_named(const harness::Harness& harness, std::string_view name);
std::string name_of(const harness::Harness& harness, const diagnosis::Contact& contact);

// The clip's point: where the job moved it, or the network's own.
harness::Index clip_point(const harness::Harness& harness, harness::Index network, const job::State& state);

// The wires of the same colours in the connector half or module plug of either tip.
std::vector<diagnosis::LookAlike> look_alikes(const harness::Harness& harness, const diagnosis::Tips& tips);

// What is assumed in this job: the harness's figures, those of the job's meter, and the rate of slips with
// the pins tried counted in.
harness::Assumptions rates(const harness::Harness& harness, const job::State& state);

// Whether the levels of the bus are known: those of ISO 11898-2 and the J1939 kinds that rest on it. On any
// other bus volts are recorded, and count for nothing.
bool has_volts(const harness::Network& network);

// Readings that tell nothing (not sure, could not reach, volts on a dead bus) are left out; so is what the
// harness does not know. Volts count with the battery on and the bus asleep or awake as the job had it then.
diagnosis::Evidence evidence(const harness::Harness& harness, harness::Index network,
                             const job::State& state);

// The place of the last reading, look or repair, or where the technician began. "Could not reach" counts:
// somebody went there to find out.
harness::Index standing_place(const harness::Harness& harness, harness::Index network,
                              const job::State& state);

}  // namespace halfsplit::advice
