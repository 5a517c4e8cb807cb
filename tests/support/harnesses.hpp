// Harnesses that many tests use.
#pragma once

#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/harness/harness.hpp"

#include "support/small_chain.hpp"

#include <string>

namespace halfsplit::test {

// From a file of the project; throws with the findings when it is not sound.
harness::Harness harness_from(const std::string& path);
harness::Harness harness_from_text(const std::string& text);

// The small chain with its socket, where the clip sits, at a place of its own, and the splice laid bare where
// the technician begins: there a reading against any ground is nearer at hand than one to the clip.
std::string socket_away_json();

// "X1.a:4", "ground", "supply".
diagnosis::Contact contact(const harness::Harness& harness, const std::string& name);
diagnosis::Tips tips(const harness::Harness& harness, const std::string& red, const std::string& black);

// The fault of that name (PART:MODE) with the given ohms where it has any; throws when there is none.
diagnosis::Fault fault_named(const harness::Harness& harness, const std::string& name, double ohm = 0);

}  // namespace halfsplit::test
