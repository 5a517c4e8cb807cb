// Bayes by listing everything: each explanation's circuit solved by plain elimination, its spread found by
// turning its resistances a little, its prior multiplied by the chance of each evidence, all added up. Of the
// library it uses the circuit, the list of faults, what a fault changes, and the weight of a part.
#pragma once

#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/harness/variants.hpp"

#include "support/plain_meter.hpp"

#include <map>
#include <string>
#include <vector>

namespace halfsplit::test {

// Probability of each set of faults, by their names without the ohms; "" is nothing wrong.
using Posterior = std::map<std::string, double>;

// The larger part of what one of the two distributions has and the other has not: 0 (alike) to 1.
double total_variation(const Posterior& one, const Posterior& other);

struct PlainBelief {
    std::vector<diagnosis::Explanation> explanations;
    std::vector<double> probability;
    std::vector<double> surprise;
    std::vector<std::vector<double>> wrong_wire;
    double comes_and_goes = 0;
};

class Enumeration {
  public:
    // Keeps a reference to the harness. Of the evidence, readings in ohms, looks and proofs count.
    Enumeration(const harness::Harness& harness, diagnosis::Evidence evidence);

    // Nothing wrong, and every fault by itself with its prior, for each variant.
    std::vector<diagnosis::Explanation> singles() const;
    // Every two faults of two parts, whatever their ohms.
    std::vector<diagnosis::Explanation> pairs() const;
    // Of an explanation of two faults that stand for all their ohms.
    double prior_of_names(const diagnosis::Explanation& pair) const;

    // The priors are those of the explanations.
    PlainBelief weigh(std::vector<diagnosis::Explanation> explanations) const;

    Posterior by_names(const std::vector<diagnosis::Explanation>& explanations,
                       const std::vector<double>& probability) const;
    // Still to be mended.
    std::vector<double> by_part(const PlainBelief& belief) const;

  private:
    struct Weighed;
    struct Likelihoods;

    // Readings taken in one situation, and where their tips and those of the wires beside them were.
    struct Group {
        std::vector<std::size_t> readings{};
        std::vector<diagnosis::Tips> tips{};
    };

    void add_to_group(std::size_t reading);
    std::vector<double> priors(const std::vector<diagnosis::Fault>& faults) const;
    void add(std::vector<diagnosis::Explanation>& into, diagnosis::Explanation explanation) const;
    bool was_repaired(const diagnosis::Fault& fault) const;
    bool was_reseated(const diagnosis::Fault& fault) const;
    std::vector<diagnosis::Fault> unmended(const diagnosis::Explanation& explanation,
                                           const diagnosis::Situation& situation) const;
    std::vector<diagnosis::Fault> showing(const diagnosis::Explanation& explanation,
                                          const diagnosis::Situation& situation) const;
    std::vector<diagnosis::Predicted> predict(const diagnosis::Explanation& explanation,
                                              const Group& group) const;
    Weighed weigh(const diagnosis::Explanation& explanation) const;
    void add_reading(std::size_t reading, const PlainChance& shows, const PlainChance& hides,
                     Likelihoods& all) const;
    void add_readings(const diagnosis::Explanation& explanation, Likelihoods& all) const;
    void add_looks_and_proofs(const diagnosis::Explanation& explanation, Likelihoods& all) const;

    const harness::Harness& harness_;
    diagnosis::Evidence evidence_;
    harness::Assumptions rates_;
    std::vector<electrics::Assembly> assemblies_;  // by variant
    std::vector<Group> groups_;
    std::vector<std::vector<diagnosis::Predicted>> sound_;  // by variant, then group
};

}  // namespace halfsplit::test
