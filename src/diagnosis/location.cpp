#include "halfsplit/diagnosis/location.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace halfsplit::diagnosis {

using electrics::DistanceLines;
using electrics::DistanceMethod;
using electrics::Stretch;
using electrics::StretchItem;

namespace {

bool concerns(Lines lines, DistanceLines measured) {
    return measured == DistanceLines::Between || lines == Lines::Both ||
           (lines == Lines::High) == (measured == DistanceLines::High);
}

bool is_open(Mode mode) {
    return mode == Mode::Open || mode == Mode::Receded || mode == Mode::Apart || mode == Mode::BridgeAbsent ||
           mode == Mode::PassThroughOpen;
}

bool can_see(const Located& located, const Fault& fault) {
    if (!concerns(fault.lines, located.lines)) return false;
    switch (located.method) {
        case DistanceMethod::Capacitance:
            return is_open(fault.mode);
        case DistanceMethod::Ohms:
            return fault.mode ==
                   (located.lines == DistanceLines::Between ? Mode::ShortLines : Mode::ShortGround);
        case DistanceMethod::Loop:
            return fault.mode == Mode::ShortGround || fault.mode == Mode::ShortSupply;
    }
    return false;
}

// An open is at the edges it opens; a short may be anywhere in its part.
bool lies_at(const StretchItem& item, const Fault& fault, const std::vector<electrics::Change>& changes) {
    if (!is_open(fault.mode)) return item.part == fault.part;
    return std::any_of(changes.begin(), changes.end(),
                       [&](const electrics::Change& change) { return change.edge == item.edge; });
}

std::optional<Stretch> stretch_of(const Located& located, Predictor& predictor, std::size_t variant) {
    auto found = electrics::find_stretch(predictor.harness(), predictor.circuit(variant).assembly,
                                         located.situation.apart, located.from, located.to);
    auto* stretch = std::get_if<Stretch>(&found);
    return stretch != nullptr ? std::optional<Stretch>(std::move(*stretch)) : std::nullopt;
}

double normal_below(double value, double mean, double deviation) {
    return std::erfc((mean - value) / (deviation * std::numbers::sqrt2)) / 2;
}

double density(double metres, double deviation, double low, double high) {
    // Shorter than can matter: a point, without the difference of two figures that are nearly the same.
    if (high - low < deviation / 1000) {
        const double off = (metres - (low + high) / 2) / deviation;
        return std::exp(-off * off / 2) / (deviation * std::sqrt(2 * std::numbers::pi));
    }
    return (normal_below(high, metres, deviation) - normal_below(low, metres, deviation)) / (high - low);
}

}  // namespace

bool counts(const Located& located, Predictor& predictor) {
    for (std::size_t variant = 0; variant < predictor.variants().size(); ++variant) {
        if (stretch_of(located, predictor, variant)) return true;
    }
    return false;
}

Locations::Locations(Predictor& predictor, const std::vector<Located>& located)
    : predictor_(predictor), located_(located) {
    for (const Located& each : located) {
        auto& by_variant = stretches_.emplace_back();
        lengths_.push_back(0);
        for (std::size_t variant = 0; variant < predictor.variants().size(); ++variant) {
            by_variant.push_back(stretch_of(each, predictor, variant));
            if (by_variant.back()) lengths_.back() = by_variant.back()->length_m;
        }
    }
}

double Locations::chance(std::size_t figure, const Explanation& explanation) const {
    if (lengths_[figure] == 0) return 1;
    const Located& located = located_[figure];
    const auto& stretch = stretches_[figure][explanation.variant];
    const double gross = gross_distance / lengths_[figure];
    const auto interval = stretch ? interval_of(explanation, located, *stretch) : std::nullopt;
    if (!interval) return gross;
    return gross +
           (1 - gross_distance) * density(located.metres, located.deviation, interval->low, interval->high);
}

std::optional<Locations::Interval> Locations::interval_of(const Explanation& explanation,
                                                          const Located& located,
                                                          const Stretch& stretch) const {
    std::optional<Interval> interval;
    const auto take = [&](double low, double high) {
        if (!interval) interval = Interval{low, high};
        interval = Interval{std::min(interval->low, low), std::max(interval->high, high)};
    };
    const electrics::Assembly& assembly = predictor_.circuit(explanation.variant).assembly;
    for (const Fault& fault : remaining(predictor_.harness(), explanation, located.situation)) {
        if (!can_see(located, fault)) continue;
        const auto opened = changes(fault, assembly);
        for (const auto* line : {&stretch.high, &stretch.low}) {
            const bool low = line == &stretch.low;
            if (located.lines == (low ? DistanceLines::High : DistanceLines::Low)) continue;
            for (const StretchItem& item : *line) {
                if (lies_at(item, fault, opened)) take(item.from_m, item.to_m);
            }
        }
    }
    const bool whole = !interval && located.method == DistanceMethod::Capacitance;
    if (whole) take(stretch.length_m / 2, stretch.length_m / 2);
    return interval;
}

}  // namespace halfsplit::diagnosis
