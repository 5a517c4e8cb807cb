#include "advice/problem.hpp"

#include "halfsplit/harness/companions.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace halfsplit::advice {

using diagnosis::Belief;
using diagnosis::Contact;
using diagnosis::Explanation;
using diagnosis::Fault;
using diagnosis::Tips;
using harness::Index;
using harness::none;

namespace {

// Explanations below this are left to come back when a reading speaks for them.
constexpr double negligible = 1e-5;

// Explanations that differ only by ohms are one to the planner: the likeliest stands for them.
struct Representative {
    const Explanation* explanation = nullptr;
    double best = 0, probability = 0;
};

using FaultKey = std::tuple<Index, int, int, Index, Index>;

FaultKey key_of(const Fault& fault) {
    return {fault.part, static_cast<int>(fault.mode), static_cast<int>(fault.lines), fault.terminal,
            fault.run};
}

std::vector<Representative> representatives(const Belief& belief) {
    const double least = negligible * std::max(1e-3, 1 - nothing_wrong(belief));
    std::map<std::pair<std::size_t, std::vector<FaultKey>>, Representative> merged;
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        if (belief.probability[i] < least / 10) continue;
        std::vector<FaultKey> faults;
        for (const Fault& fault : remaining(belief.explanations[i], belief.now))
            faults.push_back(key_of(fault));
        std::sort(faults.begin(), faults.end());
        Representative& own = merged[{belief.explanations[i].variant, std::move(faults)}];
        own.probability += belief.probability[i];
        if (belief.probability[i] > own.best) {
            own.best = belief.probability[i];
            own.explanation = &belief.explanations[i];
        }
    }
    std::vector<Representative> result;
    for (const auto& [ignored, representative] : merged) {
        if (representative.probability >= least) result.push_back(representative);
    }
    return result;
}

Contact at(Index terminal) {
    return {Contact::Kind::Terminal, terminal};
}

std::vector<PlannedReading> candidate_readings(const PoseInput& input) {
    std::vector<PlannedReading> result;
    const auto add = [&](const Contact& red, const Contact& black) {
        const Tips tips{red, black};
        const auto& barred = input.unreachable;
        if (std::find(barred.begin(), barred.end(), tips) == barred.end()) result.push_back({tips, {}});
    };
    const auto& clip = input.harness.points[input.clip].terminal;
    add(at(clip[0]), at(clip[1]));
    for (const Index terminal : clip) {
        add(at(terminal), {Contact::Kind::Ground, none});
        add(at(terminal), {Contact::Kind::Supply, none});
    }
    for (Index point = 0; point < input.harness.points.size(); ++point) {
        if (point == input.clip || input.harness.points[point].network != input.network) continue;
        const auto& terminal = input.harness.points[point].terminal;
        for (std::size_t line = 0; line < 2; ++line) add(at(terminal[line]), at(clip[line]));
    }
    return result;
}

// Sorts predictions into outcomes that a meter can tell apart; returns the outcome of each.
std::vector<int> classify(const std::vector<double>& predicted, std::vector<OutcomeClass>& classes) {
    std::vector<std::size_t> order(predicted.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    const auto value = [&](std::size_t i) {
        return predicted[i] < diagnosis::meter_limit_ohm ? predicted[i] : electrics::open_circuit;
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return value(a) < value(b); });
    std::vector<int> outcome(predicted.size(), 0);
    for (const std::size_t i : order) {
        if (std::isnan(predicted[i])) continue;
        if (classes.empty() || diagnosis::distinguishable(classes.back().high_ohm, value(i))) {
            classes.push_back({value(i), value(i)});
        }
        classes.back().high_ohm = value(i);
        outcome[i] = static_cast<int>(classes.size()) - 1;
    }
    // A bad contact reads OL, so that outcome is always possible.
    if (classes.empty() || std::isfinite(classes.back().high_ohm)) {
        classes.push_back({electrics::open_circuit, electrics::open_circuit});
    }
    if (std::any_of(predicted.begin(), predicted.end(), [](double ohm) { return std::isnan(ohm); })) {
        classes.push_back({0, 0, true});
        for (std::size_t i = 0; i < predicted.size(); ++i) {
            if (std::isnan(predicted[i])) outcome[i] = static_cast<int>(classes.size()) - 1;
        }
    }
    return outcome;
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
        : input_(input), predictor_(predictor), representatives_(representatives(input.belief)) {
        result_.readings = candidate_readings(input);
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
