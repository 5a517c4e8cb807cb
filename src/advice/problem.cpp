#include "advice/problem.hpp"

#include "advice/clip_moves.hpp"
#include "advice/volt_outcomes.hpp"
#include "advice/whereabouts.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <functional>
#include <map>
#include <optional>
#include <tuple>

namespace halfsplit::advice {

using diagnosis::Belief;
using diagnosis::Explanation;
using diagnosis::Fault;
using diagnosis::Tips;
using harness::Index;
using harness::none;

namespace {

// Readings from points the clip is moved to, times what is suspected, that are predicted to see whether they
// tell more: a count, so that the same job gets the same advice everywhere.
constexpr std::size_t most_predictions_of_clips = 200'000;

// Share of what is not sound below which an explanation is not planned for.
constexpr double negligible = 1e-5;

// From this chance on it is planned for that of two faults one is left when the first was mended. The less
// likely ones end at the first: each that goes on makes a problem of its own.
constexpr double worth_going_on = 0.005;

// Those below this are left to come back when a reading speaks for them.
double least_probability(const Belief& belief, const harness::Harness& harness) {
    return negligible * std::max(1e-3, 1 - nothing_wrong(belief, harness));
}

template <typename List, typename Item>
bool holds(const List& list, const Item& item) {
    return std::find(list.begin(), list.end(), item) != list.end();
}

std::vector<PlannedReading> planned_readings(const PoseInput& input,
                                             const std::vector<Arrangement>& arrangements) {
    std::vector<PlannedReading> result;
    for (std::size_t a = 0; a < arrangements.size(); ++a) {
        const ArrangementInput& standing = input.standing;
        if (arrangements[a].scan) {
            const Index socket = scanning_terminal(standing.harness, standing.network);
            result.push_back({{}, a, standing.costs.probe(socket), {}});
        }
        const bool as_now = arrangements[a].step == ArrangingStep::None;
        for (const Tips& tips : readings_in(arrangements[a], standing.harness, standing.network)) {
            const bool moves_clip = arrangements[a].step == ArrangingStep::MoveClip;
            if (holds(input.unreachable, tips.red.terminal)) continue;
            if (moves_clip && holds(input.unreachable, tips.black.terminal)) continue;
            const AskedReading asked{tips, arrangements[a].power, input.moves_loom};
            if (as_now && holds(input.barred, asked)) continue;
            access::Site site = standing.costs.probe(tips.red.terminal);
            if (input.moves_loom) site.minutes += standing.harness.assumptions.loom_minutes;
            result.push_back({tips, a, site, {}});
        }
    }
    return result;
}

// What a bad contact shows.
int slip_outcome(const std::vector<OutcomeClass>& classes) {
    if (classes.front().scan) return 0;
    if (classes.front().volts) return zero_outcome(classes);
    const auto open = std::find_if(classes.begin(), classes.end(), [](const OutcomeClass& one) {
        return !one.not_there && !std::isfinite(one.high_ohm);
    });
    return static_cast<int>(open - classes.begin());
}

// The element a hunt ends at: of two faults, the likelier part.
Index part_to_find(const harness::Harness& harness, const Explanation& explanation, const Belief& belief,
                   const std::vector<double>& by_part) {
    Index best = none;
    for (const Fault& fault : unmended(harness, explanation, belief.now)) {
        if (best == none || by_part[fault.part] > by_part[best]) best = fault.part;
    }
    return best;
}

// A reading that comes out the same for all that is suspected tells nothing.
bool all_alike(const std::vector<int>& outcome) {
    return std::adjacent_find(outcome.begin(), outcome.end(), std::not_equal_to<>()) == outcome.end();
}

// A way the vehicle could be that is planned with. What comes and goes shows nothing while nothing
// moves, or shows all the time: which of the two is part of what is not known.
struct Suspected {
    const Explanation* explanation = nullptr;
    double probability = 0;
    bool quiet = false;
    Index part = none;                  // that a hunt finds
    std::optional<std::size_t> then{};  // of two faults: the way it is once that part was mended
    bool follows = false;               // that way
};

std::vector<Suspected> suspected(const std::vector<Representative>& representatives, double quiet) {
    std::vector<Suspected> result;
    for (const Representative& own : representatives) {
        const bool may_be_quiet = quiet > 0 && !own.explanation->faults.empty();
        if (may_be_quiet)
            result.push_back(
                {.explanation = own.explanation, .probability = own.probability * quiet, .quiet = true});
        result.push_back({.explanation = own.explanation,
                          .probability = own.probability * (may_be_quiet ? 1 - quiet : 1)});
    }
    return result;
}

class Poser {
  public:
    Poser(const PoseInput& input, diagnosis::Predictor& predictor)
        : input_(input.standing),
          no_look_(input.no_look),
          predictor_(predictor),
          suspected_(suspected(representatives(input_.harness, input_.belief,
                                               least_probability(input_.belief, input_.harness)),
                               quiet_share(input))) {
        find_parts();
        std::vector<double> weights;
        for (std::size_t variant = 0; variant < predictor.variants().size(); ++variant)
            sound_.push_back({.variant = variant});
        for (const Suspected& own : suspected_) {
            shown_.push_back(own.quiet ? &sound_[own.explanation->variant] : own.explanation);
            weights.push_back(own.probability);
        }
        heaviest_first_ = heaviest_first(weights);
        result_.moves_loom = input.moves_loom;
        result_.arrangements = arrangements(input_, most_clips());
        result_.readings = planned_readings(input, result_.arrangements);
    }

    Posed run() {
        Whereabouts whereabouts(input_.costs.workshop(), result_.arrangements, input_.harness.assumptions);
        const access::Site start = whereabouts.reading({input_.standing.place, 0, 0}, 0);
        result_.problem.start = {start.place, input_.standing.off};
        predict();
        add_tests(whereabouts);
        add_hypotheses(whereabouts);
        result_.problem.workshop = whereabouts.workshop();
        return std::move(result_);
    }

  private:
    void predict() {
        outcomes_.resize(result_.readings.size());
        for (std::size_t first = 0; first < result_.readings.size();) {
            std::size_t last = first;
            while (last < result_.readings.size() &&
                   result_.readings[last].arrangement == result_.readings[first].arrangement)
                ++last;
            predict(first, last);
            first = last;
        }
        leave_out_what_is_no_test();
    }

    // What may come and go is looked for one by one.
    void find_parts() {
        const auto by_part = diagnosis::by_part(input_.belief, input_.harness);
        const std::size_t at_first = suspected_.size();
        for (std::size_t i = 0; i < at_first; ++i) {
            const Explanation& explanation = *suspected_[i].explanation;
            const Index found = part_to_find(input_.harness, explanation, input_.belief, by_part);
            suspected_[i].part = found;
            if (suspected_[i].quiet || suspected_[i].probability < worth_going_on) continue;
            const auto mended = without(found, explanation);
            if (!mended) continue;
            mended_.push_back(*mended);
            suspected_[i].then = suspected_.size();
            suspected_.push_back({&mended_.back(), suspected_[i].probability, false,
                                  part_to_find(input_.harness, *mended, input_.belief, by_part), std::nullopt,
                                  true});
        }
    }

    // Nothing where nothing would be left to find.
    std::optional<Explanation> without(Index part, Explanation explanation) const {
        diagnosis::Faults others;
        for (const Fault& fault : explanation.faults) {
            if (fault.part != part) others.push_back(fault);
        }
        explanation.faults = others;
        if (unmended(input_.harness, explanation, input_.belief.now).empty()) return std::nullopt;
        return explanation;
    }

    // Of what is faulty, the part that shows nothing.
    static double quiet_share(const PoseInput& input) {
        const ArrangementInput& standing = input.standing;
        const double comes_and_goes = standing.belief.comes_and_goes;
        if (input.moves_loom || comes_and_goes < worth_moving) return 0;
        return comes_and_goes * standing.harness.assumptions.quiet_at_rest;
    }

    // As many as predictions are left for, and one at least.
    std::size_t most_clips() const {
        const std::size_t each = 2 * input_.harness.points.size() * suspected_.size();
        return std::max<std::size_t>(1, most_predictions_of_clips / std::max<std::size_t>(each, 1));
    }

    void leave_out_what_is_no_test() {
        const ClipMoves clip_moves(result_, outcomes_, input_.harness);
        std::vector<char> is_test(outcomes_.size());
        for (std::size_t r = 0; r < outcomes_.size(); ++r)
            is_test[r] = !all_alike(outcomes_[r]) && !clip_moves.needless(r);
        std::size_t kept = 0;
        for (std::size_t r = 0; r < outcomes_.size(); ++r) {
            if (is_test[r] == 0) continue;
            if (kept != r) {
                outcomes_[kept] = std::move(outcomes_[r]);
                result_.readings[kept] = std::move(result_.readings[r]);
            }
            ++kept;
        }
        outcomes_.resize(kept);
        result_.readings.resize(kept);
    }

    // Readings of one arrangement.
    void predict(std::size_t first, std::size_t last) {
        std::vector<Tips> tips;
        for (std::size_t r = first; r < last; ++r) tips.push_back(result_.readings[r].tips);
        diagnosis::Situation situation = input_.belief.now;
        const Arrangement& arrangement = result_.arrangements[result_.readings[first].arrangement];
        situation.apart = arrangement.apart;
        if (arrangement.scan) {
            predict_scan(first, situation);
            return;
        }
        if (arrangement.power != electrics::Power::Off) {
            predict_volts(first, tips, situation, arrangement.power == electrics::Power::Awake);
            return;
        }
        const auto predicted = predictor_.ohms_of_each(shown_, situation, tips);
        std::vector<double> column(predicted.size());
        for (std::size_t r = first; r < last; ++r) {
            for (std::size_t i = 0; i < predicted.size(); ++i) column[i] = predicted[i][r - first];
            outcomes_[r] = classify(column, heaviest_first_, result_.readings[r].outcomes);
        }
    }

    // Each module as it likely behaves; that a sound one may be silent is for the belief to weigh.
    void predict_scan(std::size_t reading, const diagnosis::Situation& situation) {
        std::map<std::vector<Index>, int> known;
        auto& classes = result_.readings[reading].outcomes;
        for (const Explanation* explanation : shown_) {
            auto answering = diagnosis::likely_to_answer(*explanation, situation, predictor_);
            const int next = static_cast<int>(classes.size());
            const auto [own, added] = known.try_emplace(answering, std::min(next, plan::most_outcomes - 1));
            if (added && next < plan::most_outcomes)
                classes.push_back({.scan = true, .answering = std::move(answering)});
            outcomes_[reading].push_back(own->second);
        }
    }

    void predict_volts(std::size_t first, const std::vector<Tips>& tips,
                       const diagnosis::Situation& situation, bool awake) {
        std::vector<std::vector<diagnosis::PredictedVolts>> predicted;  // by what is suspected
        for (const Explanation* explanation : shown_)
            predicted.push_back(diagnosis::predict_volts(predictor_, *explanation, situation, tips, awake));
        std::vector<std::optional<double>> column(predicted.size());
        for (std::size_t t = 0; t < tips.size(); ++t) {
            for (std::size_t i = 0; i < predicted.size(); ++i) column[i] = at_rest(predicted[i][t]);
            outcomes_[first + t] = classify_volts(column, result_.readings[first + t].outcomes);
        }
    }

    void add_tests(Whereabouts& whereabouts) {
        for (const PlannedReading& reading : result_.readings) {
            plan::Test planned;
            planned.site = whereabouts.reading(reading.site, reading.arrangement);
            planned.slip = result_.arrangements[reading.arrangement].scan ? 0 : input_.belief.contact_slip;
            planned.slip_outcome = slip_outcome(reading.outcomes);
            result_.problem.tests.push_back(std::move(planned));
        }
    }

    // However likely it is that nothing is wrong, the faults that are left must not fall out of the planning.
    static double capped(double sound) { return std::min(sound, 1 - sound); }

    std::size_t element_of(Index part, Whereabouts& whereabouts) {
        const auto [found, added] = elements_.try_emplace(part, result_.part_of_element.size());
        if (added) {
            result_.part_of_element.push_back(part);
            result_.problem.bare.push_back(whereabouts.look(
                part == none ? access::Site{input_.standing.place, 0, 0} : input_.costs.look(part)));
        }
        return found->second;
    }

    // What the planner knows of one of `suspected_`.
    struct Seen {
        std::size_t element = 0;
        std::vector<int> outcome;  // by test
        bool operator<(const Seen& other) const {
            return std::tie(element, outcome) < std::tie(other.element, other.outcome);
        }
    };

    Seen seen(const Suspected& own, Whereabouts& whereabouts) {
        Seen result{element_of(own.part, whereabouts), {}};
        const auto index = static_cast<std::size_t>(&own - suspected_.data());
        for (const auto& outcome : outcomes_) result.outcome.push_back(outcome[index]);
        return result;
    }

    // Hypotheses that share the element and every outcome, and go on alike, are one.
    void add_hypotheses(Whereabouts& whereabouts) {
        std::map<std::pair<Seen, std::optional<Seen>>, double> merged;
        std::vector<decltype(merged)::const_iterator> order;
        for (const Suspected& own : suspected_) {
            if (own.follows) continue;
            if (holds(no_look_, own.part)) {
                result_.given_up += own.probability;
                continue;
            }
            Seen first = seen(own, whereabouts);
            std::optional<Seen> then;
            if (own.then) then = seen(suspected_[*own.then], whereabouts);
            const auto [entry, added] = merged.try_emplace({std::move(first), std::move(then)}, 0.0);
            entry->second += own.probability;
            if (added) order.push_back(entry);
        }
        const auto sound = elements_.find(none);
        for (const auto& entry : order) {
            const auto& [first, then] = entry->first;
            const bool is_sound = sound != elements_.end() && first.element == sound->second;
            add_hypothesis(first, is_sound ? capped(entry->second) : entry->second);
            if (!then) continue;
            result_.problem.hypotheses.back().then = result_.problem.hypotheses.size();
            add_hypothesis(*then, 0);
        }
    }

    void add_hypothesis(const Seen& own, double probability) {
        result_.problem.hypotheses.push_back({probability, own.element});
        for (std::size_t test = 0; test < own.outcome.size(); ++test)
            result_.problem.tests[test].outcome.push_back(static_cast<std::uint8_t>(own.outcome[test]));
    }

    const ArrangementInput& input_;
    const std::vector<Index>& no_look_;
    diagnosis::Predictor& predictor_;
    std::vector<Suspected> suspected_;
    std::deque<Explanation> mended_;           // what those go on to that are two faults
    std::vector<Explanation> sound_;           // by variant
    std::vector<const Explanation*> shown_;    // how each of suspected_ reads
    std::vector<std::size_t> heaviest_first_;  // of suspected_
    std::vector<std::vector<int>> outcomes_;   // by reading, then by what is suspected
    std::map<Index, std::size_t> elements_;
    Posed result_;
};

}  // namespace

Posed pose(const PoseInput& input, diagnosis::Predictor& predictor) {
    return Poser(input, predictor).run();
}

}  // namespace halfsplit::advice
