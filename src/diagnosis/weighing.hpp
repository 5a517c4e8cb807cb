// How well one explanation carries all the evidence.
#pragma once

#include "halfsplit/diagnosis/belief.hpp"

#include "diagnosis/ledger.hpp"
#include "diagnosis/numbered.hpp"
#include "diagnosis/remembered.hpp"

#include <functional>
#include <limits>
#include <span>
#include <vector>

namespace halfsplit::diagnosis {

struct Weight {
    double log = -std::numeric_limits<double>::infinity();  // of the prior and the likelihood of everything
    double comes_and_goes = 0;  // share of it in which the fault does not always show
};

class Weighing {
  public:
    // Keeps references.
    Weighing(Predictor& predictor, const Evidence& evidence, const harness::Assumptions& rates);

    Account& account(const Numbered& explanation) { return predictor_.ledger().of(explanation.number); }

    // At most so much will the weight be, in its logarithm, by what was entered so far. No work.
    double at_most(const Explanation& explanation, const Account& account) const;
    // Enters what is new. Gives up, with minus infinity, as soon as it is certain to be less than `least`:
    // most explanations soon are, and stay so.
    Weight of(const Explanation& explanation, Account& account, double least);
    // Adds what the readings owe to slips and wrong wires under an explanation with that probability, of
    // which everything was entered.
    void add_shares(const Explanation& explanation, Account& account, const Weight& weight,
                    double probability, Belief& belief);

    // How much better a fault carries some of the readings than a sound bus does: it may be half of a pair.
    double partial_fit(const Numbered& single);

  private:
    // Readings taken in one situation, and all in ohms or all in volts, are foreseen in one go, those of the
    // wires beside them as well.
    struct Group {
        const Situation* situation;
        electrics::Power power;
    };
    using Row = Remembered::Row;
    using Readings = std::vector<std::size_t>;  // positions in the evidence
    // Under "it always shows" and under "it comes and goes".
    struct Sums;

    std::size_t group_of(const Measured& measured);
    std::size_t all(Kind kind) const;  // how many there are
    bool entered_all(const Account& account) const;
    double waver(const Explanation& explanation) const;  // chance that it comes and goes
    double quiet(const Measured& measured) const;        // chance that it shows nothing then
    Row& row(const Explanation& explanation, Account& account, std::size_t group);
    Row& whole(std::size_t variant, std::size_t group) { return *whole_[variant * groups_.size() + group]; }

    void enter_some(const Explanation& explanation, Account& account);
    void enter_distances(const Explanation& explanation, std::size_t from, Sums& sums) const;
    void enter_looks(const Explanation& explanation, std::size_t from, Sums& sums) const;
    void enter_scans(const Explanation& explanation, std::size_t from, Sums& sums);
    void enter_proofs(const Explanation& explanation, std::size_t from, Sums& sums) const;
    void enter_readings(const Explanation& explanation, Account& account, std::size_t from, std::size_t to,
                        Sums& sums);
    // Sees to it that the row of each has the likelihood of it.
    void carry(const Explanation& explanation, Account& account, std::size_t from, std::size_t to);
    // Of readings of one group what is foreseen, to be taken one by one.
    using Take = std::function<void(std::size_t reading, std::span<const Foreseen> foreseen)>;
    void foresee_each(const Explanation& explanation, Row& row, const Readings& readings, const Take& take);
    double gain(std::size_t reading, const Foreseen& foreseen, const Foreseen& sound) const;

    Predictor& predictor_;
    const Evidence& evidence_;
    const harness::Assumptions& rates_;
    Locations locations_;
    std::vector<Group> groups_;
    std::vector<std::size_t> group_;          // by reading
    std::vector<Remembered::Number> number_;  // by reading
    std::vector<Row*> whole_;                 // by variant, then group: of a sound bus, all readings
};

}  // namespace halfsplit::diagnosis
