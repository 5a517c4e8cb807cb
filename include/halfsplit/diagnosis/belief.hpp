// What can be believed after all that was read and seen: Bayes over explanations.
//
// Single faults and "nothing wrong" are always there. Explanations of two faults join them when no single one
// carries the readings, and after every repair, since it may not have been the only one needed. Every
// evidence counts in the situation it was taken in, so readings from before a repair stay evidence of the
// state they belong to.
#pragma once

#include "halfsplit/diagnosis/explanation.hpp"
#include "halfsplit/diagnosis/location.hpp"
#include "halfsplit/diagnosis/measured.hpp"
#include "halfsplit/diagnosis/predictor.hpp"
#include "halfsplit/diagnosis/silence.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace halfsplit::diagnosis {

struct Looked {
    std::uint64_t sequence = 0;
    harness::Index part = harness::none;
    bool faulty = false;
    Situation situation;
    bool operator==(const Looked&) const = default;
};

struct Scanned {
    std::uint64_t sequence = 0;
    Scan scan;
    Situation situation;
    bool operator==(const Scanned&) const = default;
};

// The proof of a repair: complaint tried again and all that goes with it.
struct Proved {
    bool cured = false;
    Situation situation;
    bool operator==(const Proved&) const = default;
};

struct Evidence {
    std::vector<Measured> measured{};
    std::vector<Looked> looked{};
    std::vector<Scanned> scanned{};
    std::vector<Proved> proved{};
    std::vector<Located> located{};
    Situation now{};              // what is apart, repaired and reseated now
    bool comes_and_goes = false;  // so says the complaint
    // What this job knows of its own meter and slips; otherwise the harness's assumptions.
    std::optional<harness::Assumptions> rates{};
    bool operator==(const Evidence&) const = default;
};

struct Belief {
    std::vector<Explanation> explanations{};
    std::vector<double> probability{};              // by explanation, sums to 1
    std::vector<double> surprise{};                 // by measured: chance that it was a slip or a wrong wire
    std::vector<std::vector<double>> wrong_wire{};  // by measured and look-alike: chance of having been there
    double comes_and_goes = 0;                      // chance that something is wrong and does not always show
    bool pairs = false;                             // two-fault explanations were weighed too
    double contact_slip = 0;                        // rate that was counted with
    Situation now;
};

// Deterministic. Cost: explanations x readings small dense operations.
Belief infer(Predictor& predictor, const Evidence& evidence);

// Probability that a part holds a fault that is still to be mended, by part; a two-fault explanation counts
// for both.
std::vector<double> by_part(const Belief& belief, const harness::Harness& harness);
// Probability that nothing on this bus is left to mend.
double nothing_wrong(const Belief& belief, const harness::Harness& harness);

struct Suspect {
    Fault fault;  // ohms left out: explanations that differ by ohms or variant are one suspect
    double probability = 0;
};
// Every fault that may still be there, likeliest first.
std::vector<Suspect> suspects(const Belief& belief, const harness::Harness& harness);

}  // namespace halfsplit::diagnosis
