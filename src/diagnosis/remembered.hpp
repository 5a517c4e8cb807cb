// How well explanations carry readings, remembered from one belief to the next, whatever evidence is taken
// back: only what is new has to be solved. What a meter shows depends on the variant, on the faults that are
// left, on what is apart and on the battery, and on nothing else that a job tells.
#pragma once

#include "halfsplit/diagnosis/measured.hpp"

#include <cstddef>
#include <optional>
#include <unordered_map>
#include <vector>

namespace halfsplit::diagnosis {

// How well a set of faults carries a reading: what of a likelihood is asked for again.
struct Carried {
    double total = 0;                // 0: not worked out yet
    double gross = 0;                // the part of it owed to a slip or a wrong wire
    std::vector<double> wrong_by{};  // the parts owed to a wrong wire, by look-alike
};

class Remembered {
  public:
    // Of one set of faults with something apart.
    struct Row {
        std::vector<Carried> readings;                // by number of the reading; as long as it has to be
        std::vector<std::vector<Foreseen>> foreseen;  // by number of its tips; empty: not yet
        bool keeps_foreseen = false;                  // with at most one fault, of which there are few
    };
    // Readings of the same tips, figure, arrangement and battery have one number; those of the same tips one
    // number for these, so that what is foreseen serves another figure as well.
    struct Number {
        std::size_t reading = 0, tips = 0;
    };

    // All of it is for these rates: forgets what was worked out with others. False: rows that were handed out
    // are gone.
    bool use(const harness::Assumptions& rates);
    // Linear in the readings so far.
    Number number_of(const Measured& measured);
    // Of what is left of the explanation in the situation. Stays where it is until the next use().
    Row& row(const harness::Harness& harness, const Explanation& explanation, const Situation& situation,
             electrics::Power power);

  private:
    struct Key {
        std::size_t arrangement = 0, variant = 0;
        electrics::Power power = electrics::Power::Off;
        Faults faults;
        bool operator==(const Key&) const = default;
    };
    struct Hash {
        std::size_t operator()(const Key& key) const;
    };

    std::size_t arrangement_of(const electrics::Apart& apart);

    std::optional<harness::Assumptions> rates_;
    std::vector<electrics::Apart> arrangements_;
    std::vector<Measured> measured_;  // by number
    std::vector<std::size_t> tips_;   // by number of the reading
    std::unordered_map<Key, Row, Hash> rows_;
};

}  // namespace halfsplit::diagnosis
