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

// Readings that tell nothing (not sure, could not reach, volts) are left out; so is what the harness does not
// know.
diagnosis::Evidence evidence(const harness::Harness& harness, harness::Index network,
                             const job::State& state);

// The place of the last reading, look or repair, or where the technician began. "Could not reach" counts:
// somebody went there to find out.
harness::Index standing_place(const harness::Harness& harness, harness::Index network,
                              const job::State& state);

}  // namespace halfsplit::advice
