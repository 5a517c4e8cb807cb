// From a name as typed to the thing of the harness, or a refusal with the nearest name.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include "input.hpp"

#include <string>
#include <vector>

namespace halfsplit::job {

// Each takes the next word of `input`, or (the last) the word given, and refuses with event-name-unknown.
// Case is ignored where that leaves one name only.
harness::Index take_part(Input& input, const harness::Harness& harness);
harness::Index take_cover(Input& input, const harness::Harness& harness);
harness::Index cover_named(const Input& input, const std::string& word, const harness::Harness& harness);
harness::Index take_place(Input& input, const harness::Harness& harness);
// A point by its name, or by one of its terminals.
harness::Index take_point(Input& input, const harness::Harness& harness);
// A terminal's name, or "ground", "supply", "clip" as they are.
std::string take_tip(Input& input, const harness::Harness& harness);

// The network that the job is about; the only one of the harness when the job does not say; `none` otherwise.
harness::Index network_of(const harness::Harness& harness, const std::string& id);
// Ids of the modules on a network that are on this vehicle, or may be.
std::vector<std::string> modules_of(const harness::Harness& harness, harness::Index network);
// One of `modules`, by the word taken last.
std::string module_named(const Input& input, const std::string& word,
                         const std::vector<std::string>& modules);

// A terminal where the clip does not start, as an example of what can be typed.
std::string example_terminal(const harness::Harness& harness);

}  // namespace halfsplit::job
