// How well explanations carry readings, remembered from one belief to the next: of a job that is gone through
// record by record only what is new has to be solved. What a meter shows depends on the variant, on the
// faults that are left, on what is apart and on the battery, and on nothing else that a job tells.
#pragma once

#include "halfsplit/diagnosis/measured.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <unordered_map>
#include <vector>

namespace halfsplit::diagnosis {

// Of one reading under one set of faults.
struct Carried {
    std::optional<Likelihood> likelihood{};
    std::optional<double> gain{};  // of a single fault, against a sound bus
};

class Remembered {
  public:
    using Row = std::vector<Carried>;  // by the number of the reading; as long as it has to be

    // All of it is for these rates: forgets what was worked out with others.
    void use(const harness::Assumptions& rates);
    // The number of a reading. Readings of the same tips, figure, arrangement and battery have one.
    std::size_t number_of(const Measured& measured);
    // Of what is left of the explanation in the situation. Stays where it is until the next use().
    Row& row(const harness::Harness& harness, const Explanation& explanation, const Situation& situation,
             electrics::Power power);

  private:
    struct Key {
        std::size_t arrangement = 0, variant = 0;
        electrics::Power power = electrics::Power::Off;
        std::vector<Fault> faults;
        bool operator==(const Key&) const = default;
    };
    struct Hash {
        std::size_t operator()(const Key& key) const;
    };

    std::size_t arrangement_of(const electrics::Apart& apart);

    std::optional<harness::Assumptions> rates_;
    std::vector<electrics::Apart> arrangements_;
    std::vector<Measured> measured_;
    std::unordered_map<Key, Row, Hash> rows_;
};

}  // namespace halfsplit::diagnosis
