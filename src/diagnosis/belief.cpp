#include "halfsplit/diagnosis/belief.hpp"

#include "halfsplit/base/ranking.hpp"

#include "diagnosis/explanations.hpp"
#include "diagnosis/weighing.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

namespace halfsplit::diagnosis {

using harness::Harness;
using harness::Index;

namespace {

// What an explanation with less of the whole owes to slips is not worth working out; a million of them come
// to one in a thousand million.
constexpr double least_share = 1e-15;

// Adds what one explanation says of the readings, for its share of the whole.
void add_shares(const Shares& shares, double probability, Belief& belief) {
    for (std::size_t m = 0; m < belief.surprise.size(); ++m) {
        belief.surprise[m] += probability * shares.gross[m];
        for (std::size_t i = 0; i < shares.wrong_wire[m].size(); ++i)
            belief.wrong_wire[m][i] += probability * shares.wrong_wire[m][i];
    }
}

Belief weigh(std::vector<Explanation> explanations, Weighing& weighing, const Evidence& evidence) {
    std::vector<Weight> weights;
    weights.reserve(explanations.size());
    for (const Explanation& explanation : explanations) {
        weights.push_back(weighing.of(explanation));
        weights.back().log += explanation.prior > 0 ? std::log(explanation.prior) : -1e300;
    }
    double top = -1e300;
    for (const Weight& weight : weights) top = std::max(top, weight.log);
    Belief belief{.explanations = std::move(explanations), .now = evidence.now};
    for (const Weight& weight : weights) belief.probability.push_back(std::exp(weight.log - top));
    const double total = std::accumulate(belief.probability.begin(), belief.probability.end(), 0.0);
    belief.surprise.assign(evidence.measured.size(), 0);
    for (const Measured& measured : evidence.measured)
        belief.wrong_wire.emplace_back(measured.look_alikes.size(), 0.0);
    for (std::size_t i = 0; i < weights.size(); ++i) {
        const double probability = belief.probability[i] /= total;
        belief.comes_and_goes += probability * weights[i].comes_and_goes;
        if (probability < least_share) continue;
        add_shares(weighing.shares(belief.explanations[i], weights[i]), probability, belief);
    }
    return belief;
}

// Whether single faults are enough: no reading is a slip as likely as not, and nothing has to come and go for
// it although nobody said so.
bool carries_all(const Belief& belief, const Evidence& evidence) {
    constexpr double strained = 0.3;
    const bool no_slip = std::none_of(belief.surprise.begin(), belief.surprise.end(),
                                      [](double surprise) { return surprise > 0.5; });
    return no_slip && (evidence.comes_and_goes || belief.comes_and_goes < strained);
}

}  // namespace

Belief infer(Predictor& predictor, const Evidence& evidence) {
    const harness::Assumptions& rates = evidence.rates ? *evidence.rates : predictor.harness().assumptions;
    Weighing weighing(predictor, evidence, rates);
    std::vector<Explanation> explanations = single_explanations(predictor, evidence, rates);
    Belief belief = weigh(explanations, weighing, evidence);
    if (!carries_all(belief, evidence) || !evidence.now.repaired.empty()) {
        const auto pairs = paired_explanations(explanations, weighing, evidence, rates);
        explanations.insert(explanations.end(), pairs.begin(), pairs.end());
        belief = weigh(std::move(explanations), weighing, evidence);
        belief.pairs = true;
    }
    belief.contact_slip = rates.contact_slip;
    return belief;
}

std::vector<double> by_part(const Belief& belief, const Harness& harness) {
    std::vector<double> result(harness.parts.size(), 0);
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        std::set<Index> counted;
        for (const Fault& fault : unmended(harness, belief.explanations[i], belief.now)) {
            if (counted.insert(fault.part).second) result[fault.part] += belief.probability[i];
        }
    }
    return result;
}

double nothing_wrong(const Belief& belief, const Harness& harness) {
    double sum = 0;
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        if (unmended(harness, belief.explanations[i], belief.now).empty()) sum += belief.probability[i];
    }
    return sum;
}

std::vector<Suspect> suspects(const Belief& belief, const Harness& harness) {
    const auto key = [](const Fault& fault) {
        return std::tuple(fault.part, fault.mode, fault.lines, fault.terminal, fault.run);
    };
    std::map<decltype(key(Fault{})), Suspect> merged;
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        for (Fault fault : unmended(harness, belief.explanations[i], belief.now)) {
            fault.ohm = 0;
            Suspect& suspect = merged[key(fault)];
            suspect.fault = fault;
            suspect.probability += belief.probability[i];
        }
    }
    std::vector<Suspect> result;
    for (const auto& [ignored, suspect] : merged) result.push_back(suspect);
    std::stable_sort(result.begin(), result.end(), [](const Suspect& a, const Suspect& b) {
        return likelier(a.probability, b.probability);
    });
    return result;
}

}  // namespace halfsplit::diagnosis
