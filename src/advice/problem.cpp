#include "advice/problem.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace halfsplit::advice {

using diagnosis::Belief;
using diagnosis::Explanation;
using diagnosis::Fault;
using diagnosis::Tips;
using harness::Index;
using harness::none;

namespace {

// Share of what is not sound below which an explanation is not planned for.
constexpr double negligible = 1e-5;

// Those below this are left to come back when a reading speaks for them.
double least_probability(const Belief& belief) {
    return negligible * std::max(1e-3, 1 - nothing_wrong(belief));
}

std::vector<PlannedReading> planned_readings(const PoseInput& input) {
    std::vector<PlannedReading> result;
    for (const Tips& tips : candidate_readings(input.harness, input.network, input.clip)) {
        const auto& barred = input.unreachable;
        if (std::find(barred.begin(), barred.end(), tips) == barred.end()) result.push_back({tips, {}});
    }
    return result;
}

int open_outcome(const std::vector<OutcomeClass>& classes) {
    const auto open = std::find_if(classes.begin(), classes.end(), [](const OutcomeClass& one) {
        return !one.not_there && !std::isfinite(one.high_ohm);
    });
    return static_cast<int>(open - classes.begin());
}

// The element a hunt ends at: of two faults, the likelier part.
Index part_to_find(const Explanation& explanation, const Belief& belief, const std::vector<double>& by_part) {
    Index best = none;
    for (const Fault& fault : remaining(explanation, belief.now)) {
        if (best == none || by_part[fault.part] > by_part[best]) best = fault.part;
    }
    return best;
}

class Poser {
  public:
    Poser(const PoseInput& input, diagnosis::Predictor& predictor)
        : input_(input), predictor_(predictor), representatives_(representatives(input.belief, least_probability(input.belief))) {
        result_.readings = planned_readings(input);
    }

    Posed run() {
        result_.problem.workshop = input_.costs.workshop();
        result_.problem.start = input_.standing;
        predict();
        add_tests();
        add_hypotheses();
        return std::move(result_);
    }

  private:
    void predict() {
        std::vector<Tips> tips;
        for (const PlannedReading& reading : result_.readings) tips.push_back(reading.tips);
        for (const Representative& own : representatives_) {
            predicted_.push_back(predictor_.ohms(*own.explanation, input_.belief.now, tips));
        }
    }

    void add_tests() {
        for (std::size_t test = 0; test < result_.readings.size(); ++test) {
            PlannedReading& reading = result_.readings[test];
            std::vector<double> column;
            for (const auto& row : predicted_) column.push_back(row[test]);
            outcomes_.push_back(classify(column, reading.outcomes));
            plan::Test planned;
            planned.site = input_.costs.probe(reading.tips.red.terminal);
            planned.slip = input_.harness.assumptions.contact_slip;
            planned.slip_outcome = open_outcome(reading.outcomes);
            result_.problem.tests.push_back(std::move(planned));
        }
    }

    // However likely it is that nothing is wrong, the faults that are left must not fall out of the planning.
    static double capped(double sound) { return std::min(sound, 1 - sound); }

    std::size_t element_of(Index part) {
        const auto [found, added] = elements_.try_emplace(part, result_.part_of_element.size());
        if (added) {
            result_.part_of_element.push_back(part);
            result_.problem.bare.push_back(part == none ? access::Site{input_.standing.place, 0, 0}
                                                        : input_.costs.look(part));
        }
        return found->second;
    }

    // Hypotheses that share the element and every outcome are one.
    void add_hypotheses() {
        const auto by_part = diagnosis::by_part(input_.belief, input_.harness.parts.size());
        std::map<std::pair<std::size_t, std::vector<int>>, double> merged;
        std::vector<const std::pair<const std::pair<std::size_t, std::vector<int>>, double>*> order;
        for (std::size_t i = 0; i < representatives_.size(); ++i) {
            const Index part = part_to_find(*representatives_[i].explanation, input_.belief, by_part);
            std::vector<int> signature;
            for (const auto& outcome : outcomes_) signature.push_back(outcome[i]);
            const auto [entry, added] = merged.try_emplace({element_of(part), std::move(signature)}, 0.0);
            entry->second += representatives_[i].probability;
            if (added) order.push_back(&*entry);
        }
        const auto sound = elements_.find(none);
        for (const auto* entry : order) {
            const bool is_sound = sound != elements_.end() && entry->first.first == sound->second;
            result_.problem.hypotheses.push_back(
                {is_sound ? capped(entry->second) : entry->second, entry->first.first});
            for (std::size_t test = 0; test < outcomes_.size(); ++test) {
                result_.problem.tests[test].outcome.push_back(entry->first.second[test]);
            }
        }
    }

    const PoseInput& input_;
    diagnosis::Predictor& predictor_;
    std::vector<Representative> representatives_;
    std::vector<std::vector<double>> predicted_;  // by representative, then reading
    std::vector<std::vector<int>> outcomes_;      // by reading, then representative
    std::map<Index, std::size_t> elements_;
    Posed result_;
};

}  // namespace

Posed pose(const PoseInput& input, diagnosis::Predictor& predictor) {
    return Poser(input, predictor).run();
}

}  // namespace halfsplit::advice
