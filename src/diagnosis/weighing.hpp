// How well one explanation carries all the evidence.
#pragma once

#include "halfsplit/diagnosis/belief.hpp"

#include "diagnosis/remembered.hpp"

#include <vector>

namespace halfsplit::diagnosis {

struct Weight {
    double log = 0;             // of the likelihood of everything
    double comes_and_goes = 0;  // share of it in which the fault does not always show
};

// What a likelihood owes to readings that are not what they seem.
struct Shares {
    std::vector<double> gross;                    // by measured: to a slip or a wrong wire
    std::vector<std::vector<double>> wrong_wire;  // by measured and look-alike
};

class Weighing {
  public:
    // Keeps references.
    Weighing(Predictor& predictor, const Evidence& evidence, const harness::Assumptions& rates);

    const harness::Harness& harness() const { return predictor_.harness(); }
    const electrics::Assembly& assembly(std::size_t variant) { return predictor_.circuit(variant).assembly; }

    Weight of(const Explanation& explanation);
    // `weight`: what of() says of it.
    Shares shares(const Explanation& explanation, const Weight& weight);

    // How much better a fault carries some of the readings than a sound bus does: it may be half of a pair.
    double partial_fit(const Explanation& single);

  private:
    // Readings taken in one situation, and all in ohms or all in volts, are foreseen in one go, those of the
    // wires beside them as well.
    struct Group {
        const Situation* situation;
        electrics::Power power;
        std::vector<std::size_t> measured{};
        std::vector<Tips> tips{};           // possible_tips() of each
        std::vector<std::size_t> begin{};   // by reading of the group: where its own begin, and the end
        std::vector<std::size_t> number{};  // by reading of the group: what it is remembered by
    };
    // Of a whole group.
    using Foresight = std::vector<Foreseen>;

    // Everything under "it always shows" and under "it comes and goes".
    struct Sums;

    Group& group_of(const Measured& measured);
    Foresight foresee_all(const Explanation& explanation, const Group& group);
    Remembered::Row& row(const Explanation& explanation, const Group& group);
    // By the number of a reading; those of the group are there.
    const Remembered::Row& likelihoods(const Explanation& explanation, const Group& group);
    const Remembered::Row& gains(const Explanation& single, std::size_t group);
    double quiet(const Measured& measured) const;  // chance that a fault that comes and goes shows nothing
    void add_readings(const Explanation& explanation, Sums& sums);
    void add_scans(const Explanation& explanation, Sums& sums);
    void add_looks(const Explanation& explanation, Sums& sums) const;
    void add_distances(const Explanation& explanation, Sums& sums) const;
    void add_proofs(const Explanation& explanation, Sums& sums) const;
    double gain(const Measured& measured, const Foreseen& foreseen, const Foreseen& sound) const;
    const Foresight& sound(std::size_t variant, std::size_t group) const;
    double chance_of_coming_and_going(const Explanation& explanation) const;

    Predictor& predictor_;
    const Evidence& evidence_;
    const harness::Assumptions& rates_;
    Locations locations_;
    std::vector<Group> groups_;
    std::vector<Foresight> sound_;  // by variant, then group: what a sound bus would show
};

}  // namespace halfsplit::diagnosis
