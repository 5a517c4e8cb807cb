#include "support/plain_meter.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::test {

namespace {

using diagnosis::Observation;
using diagnosis::Predicted;
using diagnosis::Shown;
using harness::Assumptions;

constexpr double pi = 3.14159265358979323846;
constexpr double contact_ohm = 0.4;  // each probing its own

double square(double x) {
    return x * x;
}

bool shows_open(const Observation& seen, const Assumptions& rates) {
    return seen.shown == Shown::Open || (seen.shown == Shown::Ohm && !(seen.ohm < rates.meter_limit_ohm));
}

// Width of figures that count as the same.
double same_figure(double ohm) {
    return 0.1 + 0.02 * ohm;
}

// Even over eight decades of ohms.
double even_over_decades(double ohm) {
    return same_figure(ohm) / (8 * std::log(10.0) * std::max(ohm, 0.1));
}

// Ranges end at `counts` last places; the first has a last place of 0.1 ohm.
double last_place(double ohm, double counts) {
    const double ranges_up = std::floor(std::log10(ohm / (0.1 * counts))) + 1;
    return 0.1 * std::pow(10.0, std::max(0.0, ranges_up));
}

// Variance of what the meter shows: its accuracy is a limit of two standard deviations.
double of_meter(double ohm, const Assumptions& rates) {
    const double limit =
        ohm * rates.meter_percent / 100 + rates.meter_digits * last_place(ohm, rates.meter_counts);
    return square(limit / 2) + square(contact_ohm) + square(rates.meter_lead_ohm);
}

// ln(1 + ohm) is normal around ln(1 + expected).
double of_figure(double ohm, const Predicted& expected, const Assumptions& rates) {
    const double middle = expected.ohm + rates.meter_lead_ohm;
    const double deviation = std::sqrt(of_meter(middle, rates) + square(expected.spread)) / (1 + middle);
    const double away = std::log1p(ohm) - std::log1p(middle);
    const double density =
        std::exp(-0.5 * square(away / deviation)) / (std::sqrt(2 * pi) * deviation) / (1 + ohm);
    return std::min(1.0, density * same_figure(ohm));
}

double sounds(double ohm, const Assumptions& rates) {
    const double down = std::log(rates.buzzer_high_ohm) - std::log(ohm);
    const double whole = std::log(rates.buzzer_high_ohm) - std::log(rates.buzzer_low_ohm);
    return ohm <= 0 ? 1 : std::clamp(down / whole, 0.0, 1.0);
}

double honestly(const Observation& seen, const Predicted& expected, const Assumptions& rates) {
    const bool open = expected.ohm >= rates.meter_limit_ohm;
    if (seen.shown == Shown::Closed) return open ? 0 : sounds(expected.ohm, rates);
    if (seen.shown == Shown::Open) return open ? 1 : 1 - sounds(expected.ohm, rates);
    const bool low_range = expected.ohm > 2000;
    if (shows_open(seen, rates)) return open ? 1 : low_range ? 0.1 : 0;
    return open ? 0 : of_figure(seen.ohm, expected, rates);
}

double with_bad_contact(const Observation& seen, double expected, const Assumptions& rates) {
    if (shows_open(seen, rates)) return 0.9;
    const bool more = seen.shown == Shown::Ohm && seen.ohm > expected;
    return more ? 0.1 * even_over_decades(seen.ohm) : 0;
}

double of_another_circuit(const Observation& seen, const Assumptions& rates) {
    if (seen.shown != Shown::Ohm) return seen.shown == Shown::Open ? 0.9 : 0.1;
    return shows_open(seen, rates) ? 0.7 : 0.3 * even_over_decades(seen.ohm);
}

}  // namespace

PlainChance plain_chance(const Observation& seen, const Predicted& expected, const Assumptions& rates,
                         const std::vector<Predicted>& look_alikes) {
    constexpr double never_nothing = 1e-6;
    if (std::isnan(expected.ohm))
        return {never_nothing, never_nothing, std::vector<double>(look_alikes.size(), 0)};
    PlainChance chance;
    const double slip = rates.contact_slip;
    double wrong = rates.wrong_wire;
    chance.gross = slip * with_bad_contact(seen, expected.ohm, rates) + never_nothing;
    if (look_alikes.empty()) {
        wrong /= 10;
        chance.gross += wrong * of_another_circuit(seen, rates);
    }
    for (const Predicted& wire : look_alikes) {
        const bool known = !std::isnan(wire.ohm);
        chance.wrong_by.push_back(wrong / static_cast<double>(look_alikes.size()) *
                                  (known ? honestly(seen, wire, rates) : of_another_circuit(seen, rates)));
        chance.gross += chance.wrong_by.back();
    }
    chance.total = (1 - slip - wrong) * honestly(seen, expected, rates) + chance.gross;
    return chance;
}

}  // namespace halfsplit::test
