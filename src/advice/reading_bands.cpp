#include "advice/reading_bands.hpp"

#include "halfsplit/diagnosis/meter.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace halfsplit::advice {

namespace {

// Half of what two figures are apart that a careful person tells from each other (diagnosis::distinguishable,
// diagnosis::distinguishable_volts).
constexpr double room_ohm = 2, room_share = 1.16, room_volt = 0.2;

// To so many significant digits.
double round_figure(double value, int digits, double (*rounding)(double)) {
    if (value <= 0 || !std::isfinite(value)) return value;
    const double unit = std::pow(10, std::floor(std::log10(value)) - (digits - 1));
    return rounding(value / unit) * unit;
}

double nearest_whole(double value) {
    return std::round(value);
}

// A round figure between two that are apart.
double edge_between(double below, double above) {
    constexpr double least = 0.5;  // below, differences count and not ratios (candidates.cpp)
    const double middle = std::sqrt((below + least) * (above + least)) - least;
    for (const int digits : {2, 3}) {
        const double edge = round_figure(middle, digits, nearest_whole);
        if (edge > below && edge < above) return edge;
    }
    return middle;
}

Band with_room(const OutcomeClass& outcome, bool highest_figure) {
    Band band;
    band.low = std::max(0.0, std::min(outcome.low_ohm - room_ohm, outcome.low_ohm / room_share));
    band.low = round_figure(band.low, 2, std::floor);
    band.high = std::max(outcome.high_ohm + room_ohm, outcome.high_ohm * room_share);
    band.high = round_figure(band.high, 2, std::ceil);
    if (highest_figure && outcome.high_ohm >= diagnosis::kilohms_from) band.high = diagnosis::meter_limit_ohm;
    return band;
}

std::vector<Band> ohm_bands(const std::vector<OutcomeClass>& classes) {
    std::vector<Band> result;
    for (const OutcomeClass& outcome : classes) {
        const bool figure = !outcome.not_there && std::isfinite(outcome.high_ohm);
        const bool highest = &outcome == &classes.back() || classes[result.size() + 1].not_there ||
                             !std::isfinite(classes[result.size() + 1].high_ohm);
        result.push_back(outcome.not_there ? Band{}
                         : figure          ? with_room(outcome, highest)
                                           : Band{outcome.low_ohm, outcome.high_ohm});
        if (!figure || result.size() < 2) continue;
        Band& below = result[result.size() - 2];
        if (below.high <= result.back().low) continue;
        const double edge = edge_between(classes[result.size() - 2].high_ohm, outcome.low_ohm);
        below.high = std::min(below.high, edge);
        result.back().low = std::max(result.back().low, edge);
    }
    return result;
}

std::vector<Band> volt_bands(const std::vector<OutcomeClass>& classes) {
    std::vector<Band> result;
    for (const OutcomeClass& outcome : classes) {
        if (outcome.not_there) {
            result.push_back({});
            continue;
        }
        const auto tenth = [](double volt) { return std::round(volt * 10) / 10; };
        result.push_back({tenth(outcome.low_volt - room_volt), tenth(outcome.high_volt + room_volt)});
        if (result.size() < 2) continue;
        Band& below = result[result.size() - 2];
        if (below.high <= result.back().low) continue;
        const double middle = (classes[result.size() - 2].high_volt + outcome.low_volt) / 2;
        below.high = result.back().low = middle;
    }
    return result;
}

}  // namespace

std::vector<Band> bands(const std::vector<OutcomeClass>& classes) {
    if (classes.empty() || classes.front().scan) return std::vector<Band>(classes.size());
    return classes.front().volts ? volt_bands(classes) : ohm_bands(classes);
}

}  // namespace halfsplit::advice
