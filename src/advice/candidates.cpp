#include "advice/candidates.hpp"

#include "halfsplit/base/ranking.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/diagnosis/meter.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

namespace halfsplit::advice {

using diagnosis::at;
using diagnosis::Belief;
using diagnosis::Contact;
using diagnosis::Fault;
using diagnosis::Tips;
using harness::Index;
using harness::none;

std::string in_words(const OutcomeClass& outcome) {
    if (outcome.not_there) return "the point is not there";
    if (!std::isfinite(outcome.high_ohm)) return "open (OL)";
    if (outcome.high_ohm < 3) return "closed, below 3 ohm";
    if (outcome.low_ohm >= diagnosis::kilohms_from) return "kilohms";
    const std::string low = format_ohm(outcome.low_ohm);
    const std::string high = format_ohm(outcome.high_ohm);
    const bool one_figure = outcome.high_ohm < 1.05 * outcome.low_ohm + 0.5;
    return one_figure ? "about " + high : low + " to " + high;
}

std::vector<std::size_t> heaviest_first(const std::vector<double>& weights) {
    std::vector<std::size_t> order(weights.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return likelier(weights[a], weights[b]); });
    return order;
}

namespace {

// Rising. Each figure that no heavier one stands for is a centre of its own.
std::vector<double> centres_of(const std::vector<double>& predicted,
                               const std::vector<std::size_t>& heaviest_first) {
    std::vector<double> centres;
    for (const std::size_t i : heaviest_first) {
        if (std::isnan(predicted[i])) continue;
        const double ohm = diagnosis::as_shown(predicted[i]);
        const bool stood_for = std::any_of(centres.begin(), centres.end(), [ohm](double centre) {
            return !diagnosis::distinguishable(centre, ohm);
        });
        if (!stood_for) centres.push_back(ohm);
    }
    std::sort(centres.begin(), centres.end());
    return centres;
}

// The one that the figure is least far from, by ratio.
std::size_t nearest(const std::vector<double>& centres, double ohm) {
    const auto above = std::lower_bound(centres.begin(), centres.end(), ohm);
    if (above == centres.begin()) return 0;
    const auto below = std::prev(above);
    if (above == centres.end()) return static_cast<std::size_t>(below - centres.begin());
    constexpr double least = 0.5;  // below, differences count and not ratios
    const bool upper = (ohm + least) * (ohm + least) > (*below + least) * (*above + least);
    return static_cast<std::size_t>((upper ? above : below) - centres.begin());
}

}  // namespace

std::vector<int> classify(const std::vector<double>& predicted,
                          const std::vector<std::size_t>& heaviest_first,
                          std::vector<OutcomeClass>& classes) {
    const std::vector<double> centres = centres_of(predicted, heaviest_first);
    for (const double centre : centres) classes.push_back({centre, centre});
    if (classes.empty() || std::isfinite(classes.back().high_ohm))
        classes.push_back({electrics::open_circuit, electrics::open_circuit});
    std::vector<int> outcome(predicted.size(), static_cast<int>(classes.size()));
    bool not_there = false;
    for (std::size_t i = 0; i < predicted.size(); ++i) {
        if (std::isnan(predicted[i])) {
            not_there = true;
            continue;
        }
        const double ohm = diagnosis::as_shown(predicted[i]);
        const std::size_t own = std::isfinite(ohm) ? nearest(centres, ohm) : classes.size() - 1;
        classes[own].low_ohm = std::min(classes[own].low_ohm, ohm);
        classes[own].high_ohm = std::max(classes[own].high_ohm, ohm);
        outcome[i] = static_cast<int>(own);
    }
    if (not_there) classes.push_back({0, 0, true});
    return outcome;
}

namespace {

using FaultKey = std::tuple<Index, int, int, Index, Index>;

FaultKey key_of(const Fault& fault) {
    return {fault.part, static_cast<int>(fault.mode), static_cast<int>(fault.lines), fault.terminal,
            fault.run};
}

}  // namespace

std::vector<Representative> representatives(const harness::Harness& harness, const Belief& belief,
                                            double least) {
    // What is quiet since it was reseated reads as sound, and is another explanation than the same fault
    // awake.
    std::map<std::tuple<std::size_t, bool, std::vector<FaultKey>>, Representative> merged;
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        if (belief.probability[i] < least / 10) continue;
        std::vector<FaultKey> faults;
        for (const Fault& fault : unmended(harness, belief.explanations[i], belief.now))
            faults.push_back(key_of(fault));
        std::sort(faults.begin(), faults.end());
        Representative& own =
            merged[{belief.explanations[i].variant, belief.explanations[i].reseat_cured, std::move(faults)}];
        own.probability += belief.probability[i];
        if (own.explanation == nullptr || belief.probability[i] > own.best) {
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

std::vector<Tips> candidate_readings(const harness::Harness& harness, Index network, Index clip) {
    const std::vector<Index> on_clip = terminals_of(harness.points[clip]);
    std::vector<Tips> result;
    if (on_clip.size() == 2) result.push_back({at(on_clip[0]), at(on_clip[1])});
    for (const Index terminal : on_clip) {
        result.push_back({at(terminal), {Contact::Kind::Ground, none}});
        result.push_back({at(terminal), {Contact::Kind::Supply, none}});
    }
    const auto continuity = continuity_from(harness, network, clip);
    result.insert(result.end(), continuity.begin(), continuity.end());
    return result;
}

std::vector<Tips> continuity_from(const harness::Harness& harness, Index network, Index clip) {
    const auto& on_clip = harness.points[clip].terminal;
    std::vector<Tips> result;
    for (Index point = 0; point < harness.points.size(); ++point) {
        if (point == clip || harness.points[point].network != network) continue;
        const std::vector<Index> terminal = terminals_of(harness.points[point]);
        for (std::size_t line = 0; line < terminal.size(); ++line)
            result.push_back({at(terminal[line]), at(on_clip[line])});
    }
    return result;
}

std::vector<Tips> pairs_of_points(const harness::Harness& harness, Index network) {
    std::vector<Tips> result;
    for (const harness::Point& point : harness.points) {
        if (point.network == network && point.terminal[1] != none)
            result.push_back({at(point.terminal[0]), at(point.terminal[1])});
    }
    return result;
}

}  // namespace halfsplit::advice
