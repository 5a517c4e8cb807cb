#include "advice/candidates.hpp"

#include "halfsplit/base/units.hpp"
#include "halfsplit/diagnosis/meter.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <tuple>
#include <utility>

namespace halfsplit::advice {

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
    const std::string low = format_ohm(outcome.low_ohm);
    const std::string high = format_ohm(outcome.high_ohm);
    const bool one_figure = outcome.high_ohm < 1.05 * outcome.low_ohm + 0.5;
    return one_figure ? "about " + high : low + " to " + high;
}

namespace {

// Of figures a meter shows; lowest first.
std::vector<OutcomeClass> classes_of(std::vector<double> figures) {
    if (figures.empty()) return {};
    const auto [least, most] = std::minmax_element(figures.begin(), figures.end());
    if (!diagnosis::distinguishable(*least, *most)) return {{*least, *most}};
    std::sort(figures.begin(), figures.end());
    std::vector<OutcomeClass> classes{{figures.front(), figures.front()}};
    for (const double ohm : figures) {
        if (diagnosis::distinguishable(classes.back().high_ohm, ohm)) classes.push_back({ohm, ohm});
        classes.back().high_ohm = ohm;
    }
    return classes;
}

bool is_figure(double ohm) {
    return ohm < diagnosis::meter_limit_ohm;
}

}  // namespace

std::vector<int> classify(const std::vector<double>& predicted, std::vector<OutcomeClass>& classes) {
    std::vector<double> figures;
    figures.reserve(predicted.size());
    std::copy_if(predicted.begin(), predicted.end(), std::back_inserter(figures), is_figure);
    classes = classes_of(std::move(figures));
    const auto open = static_cast<std::ptrdiff_t>(classes.size());
    classes.push_back({electrics::open_circuit, electrics::open_circuit});
    std::vector<int> outcome;
    outcome.reserve(predicted.size());
    bool not_there = false;
    for (const double ohm : predicted) {
        not_there = not_there || std::isnan(ohm);
        const auto own = std::find_if(classes.begin(), classes.begin() + open,
                                      [&](const OutcomeClass& one) { return ohm <= one.high_ohm; });
        outcome.push_back(static_cast<int>(own - classes.begin()) + (std::isnan(ohm) ? 1 : 0));
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

std::vector<Representative> representatives(const Belief& belief, double least) {
    std::map<std::pair<std::size_t, std::vector<FaultKey>>, Representative> merged;
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        if (belief.probability[i] < least / 10) continue;
        std::vector<FaultKey> faults;
        for (const Fault& fault : remaining(belief.explanations[i], belief.now))
            faults.push_back(key_of(fault));
        std::sort(faults.begin(), faults.end());
        Representative& own = merged[{belief.explanations[i].variant, std::move(faults)}];
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

namespace {

Contact at(Index terminal) {
    return {Contact::Kind::Terminal, terminal};
}

}  // namespace

std::vector<Tips> candidate_readings(const harness::Harness& harness, Index network, Index clip) {
    const auto& on_clip = harness.points[clip].terminal;
    std::vector<Tips> result{{at(on_clip[0]), at(on_clip[1])}};
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
        const auto& terminal = harness.points[point].terminal;
        for (std::size_t line = 0; line < 2; ++line)
            result.push_back({at(terminal[line]), at(on_clip[line])});
    }
    return result;
}

std::vector<Tips> pairs_of_points(const harness::Harness& harness, Index network) {
    std::vector<Tips> result;
    for (const harness::Point& point : harness.points) {
        if (point.network == network) result.push_back({at(point.terminal[0]), at(point.terminal[1])});
    }
    return result;
}

}  // namespace halfsplit::advice
