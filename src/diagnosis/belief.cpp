#include "halfsplit/diagnosis/belief.hpp"

#include "halfsplit/base/ranking.hpp"

#include "diagnosis/explanations.hpp"
#include "diagnosis/weighing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <tuple>

namespace halfsplit::diagnosis {

using harness::Harness;
using harness::Index;

namespace {

// What an explanation with less of the whole owes to slips is not worth working out; a million of them come
// to one in a thousand million.
constexpr double least_share = 1e-15;
// What is so much less likely than the likeliest, in the logarithm, counts as impossible: ten thousand of
// them do not show in the last bit of the sum.
constexpr double negligible = 46;

using Accounts = std::vector<Account*>;

// One that is likely to be among the likeliest by what was entered so far.
std::size_t first_guess(const std::vector<Numbered>& all, const Accounts& accounts,
                        const Weighing& weighing) {
    std::pair<std::size_t, double> best{0, -std::numeric_limits<double>::infinity()};
    std::size_t guess = 0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto& entered = accounts[i]->entered;
        const std::pair own{std::accumulate(entered.begin(), entered.end(), std::size_t{0}),
                            weighing.at_most(all[i].explanation, *accounts[i])};
        if (own <= best) continue;
        best = own;
        guess = i;
    }
    return guess;
}

std::vector<Weight> weights_of(const std::vector<Numbered>& all, const Accounts& accounts,
                               Weighing& weighing) {
    const std::size_t guess = first_guess(all, accounts, weighing);
    double top = weighing.of(all[guess].explanation, *accounts[guess], -1e300).log;
    std::vector<Weight> weights;
    weights.reserve(all.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        weights.push_back(weighing.of(all[i].explanation, *accounts[i], top - negligible));
        top = std::max(top, weights.back().log);
    }
    for (Weight& weight : weights) weight.log = weight.log < top - negligible ? -1e300 : weight.log - top;
    return weights;
}

// All of the belief but for the explanations.
Belief weigh(const std::vector<Numbered>& all, Weighing& weighing, const Evidence& evidence) {
    Accounts accounts;
    accounts.reserve(all.size());
    for (const Numbered& one : all) accounts.push_back(&weighing.account(one));
    const std::vector<Weight> weights = weights_of(all, accounts, weighing);
    Belief belief{.now = evidence.now};
    belief.probability.reserve(all.size());
    for (const Weight& weight : weights) belief.probability.push_back(std::exp(weight.log));
    const double total = std::accumulate(belief.probability.begin(), belief.probability.end(), 0.0);
    belief.surprise.assign(evidence.measured.size(), 0);
    for (const Measured& measured : evidence.measured)
        belief.wrong_wire.emplace_back(measured.look_alikes.size(), 0.0);
    for (std::size_t i = 0; i < weights.size(); ++i) {
        const double probability = belief.probability[i] /= total;
        belief.comes_and_goes += probability * weights[i].comes_and_goes;
        if (probability < least_share) continue;
        weighing.add_shares(all[i].explanation, *accounts[i], weights[i], probability, belief);
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
    std::vector<Numbered> all = single_explanations(predictor, evidence, rates);
    Belief belief = weigh(all, weighing, evidence);
    if (!carries_all(belief, evidence) || !evidence.now.repaired.empty()) {
        const std::vector<Numbered> pairs = paired_explanations(all, predictor, weighing, evidence, rates);
        all.insert(all.end(), pairs.begin(), pairs.end());
        belief = weigh(all, weighing, evidence);
        belief.pairs = true;
    }
    belief.explanations.reserve(all.size());
    for (const Numbered& one : all) belief.explanations.push_back(one.explanation);
    belief.contact_slip = rates.contact_slip;
    return belief;
}

std::vector<double> by_part(const Belief& belief, const Harness& harness) {
    std::vector<double> result(harness.parts.size(), 0);
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        const Explanation& explanation = belief.explanations[i];
        std::array<Index, Faults::most> counted;
        std::size_t parts = 0;
        for (const Fault& fault : explanation.faults) {
            const auto end = counted.begin() + static_cast<std::ptrdiff_t>(parts);
            if (std::find(counted.begin(), end, fault.part) != end) continue;
            if (!is_unmended(harness, explanation, fault, belief.now)) continue;
            result[fault.part] += belief.probability[i];
            counted[parts++] = fault.part;
        }
    }
    return result;
}

double nothing_wrong(const Belief& belief, const Harness& harness) {
    double sum = 0;
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        const Explanation& explanation = belief.explanations[i];
        const bool wrong = std::any_of(
            explanation.faults.begin(), explanation.faults.end(),
            [&](const Fault& fault) { return is_unmended(harness, explanation, fault, belief.now); });
        if (!wrong) sum += belief.probability[i];
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
