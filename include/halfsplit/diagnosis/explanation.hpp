// One way the vehicle could be: which variant it is, and what is wrong with it (nothing, one fault, or two).
#pragma once

#include "halfsplit/diagnosis/fault.hpp"
#include "halfsplit/electrics/assembly.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::diagnosis {

struct Explanation {
    std::size_t variant = 0;
    Faults faults{};             // empty: nothing wrong on this bus
    bool repair_failed = false;  // a repair of a faulty part did not take
    bool reseat_cured = false;   // taking it apart and together quieted the first fault, a bad contact
    double prior = 0;            // weight; not normalised
};

struct Repaired {
    harness::Index part = harness::none;
    bool reseated = false;  // and nothing else: mends contacts only
    bool operator==(const Repaired&) const = default;
};

// What had been done to the bus when something was read or seen.
struct Situation {
    electrics::Apart apart;
    std::vector<Repaired> repaired{};        // so far, in order
    std::vector<harness::Index> reseated{};  // parts that had been apart and were together again; sorted
    bool operator==(const Situation&) const = default;
};

// Whether a fault is one of the mating contacts, so that reseating the part may mend it.
bool is_of_contacts(const harness::Harness& harness, const Fault& fault);

// Whether one of the faults of an explanation is still to be found or mended: a repair of a part takes its
// faults away unless it failed.
bool is_unmended(const harness::Harness& harness, const Explanation& explanation, const Fault& fault,
                 const Situation& situation);
// All those.
Faults unmended(const harness::Harness& harness, const Explanation& explanation, const Situation& situation);
// Those of them that a meter could notice: not a contact that is quiet since it was reseated.
Faults remaining(const harness::Harness& harness, const Explanation& explanation, const Situation& situation);

}  // namespace halfsplit::diagnosis
