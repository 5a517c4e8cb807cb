#include "halfsplit/diagnosis/meter.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace halfsplit::diagnosis {

namespace {

// Readings are compared by the chance of falling into a cell this wide around the figure, so that a figure
// and an "OL" can be weighed against each other.
double cell(double ohm) {
    return 0.1 + 0.02 * ohm;
}

// A figure that owes nothing to the prediction: even over the decades from 0.1 ohm to 10 Mohm.
double anything(double ohm) {
    const double decades = std::log(1e8);
    return cell(ohm) / (std::max(ohm, 0.1) * decades);
}

// Value of the last digit shown on the lowest range that holds the figure.
double last_digit(double ohm, double counts) {
    double digit = 0.1;
    while (digit * counts <= ohm) digit *= 10;
    return digit;
}

// A stated accuracy is a limit: two standard deviations. Every probing has a contact of its own.
double meter_spread(double ohm, const harness::Assumptions& rates) {
    constexpr double contact_ohm = 0.4;
    const double accuracy =
        rates.meter_percent / 100 * ohm + rates.meter_digits * last_digit(ohm, rates.meter_counts);
    return std::hypot(accuracy / 2, std::hypot(contact_ohm, rates.meter_lead_ohm));
}

// Normal for a small spread. Where the spread is as large as the figure, as with transceivers, it is normal
// in the logarithm, so that there is no resistance below zero.
double within_tolerance(double ohm, const Predicted& predicted, const harness::Assumptions& rates) {
    constexpr double shift = 1;
    const double centre = predicted.ohm + rates.meter_lead_ohm;
    const double spread = std::hypot(meter_spread(centre, rates), predicted.spread) / (centre + shift);
    const double off = std::log((ohm + shift) / (centre + shift)) / spread;
    const double density =
        std::exp(-off * off / 2) / (spread * std::sqrt(2 * std::numbers::pi) * (ohm + shift));
    return std::min(1.0, cell(ohm) * density);
}

bool is_over_limit(const Observation& seen, const harness::Assumptions& rates) {
    return seen.ohm >= rates.meter_limit_ohm;
}

double beep(double predicted, const harness::Assumptions& rates) {
    if (predicted <= rates.buzzer_low_ohm) return 1;
    if (predicted >= rates.buzzer_high_ohm) return 0;
    return std::log(rates.buzzer_high_ohm / predicted) /
           std::log(rates.buzzer_high_ohm / rates.buzzer_low_ohm);
}

// A meter left on a low range shows OL for kilohms (common practice, no source).
double beyond_the_range(double predicted) {
    return predicted > 2000 ? 0.1 : 0;
}

double honest(const Observation& seen, const Predicted& expected, const harness::Assumptions& rates) {
    const double predicted = expected.ohm;
    const bool predicted_open = !(predicted < rates.meter_limit_ohm);
    switch (seen.shown) {
        case Shown::Closed:
            return predicted_open ? 0 : beep(predicted, rates);
        case Shown::Open:
            return predicted_open ? 1 : 1 - beep(predicted, rates);
        case Shown::Ohm:
            break;
    }
    if (is_over_limit(seen, rates)) return predicted_open ? 1 : beyond_the_range(predicted);
    return predicted_open ? 0 : within_tolerance(seen.ohm, expected, rates);
}

// A bad contact mostly shows nothing at all; now and then it only adds ohms.
double slipped(const Observation& seen, double predicted, const harness::Assumptions& rates) {
    constexpr double adds_ohms = 0.1;
    const bool nothing =
        seen.shown == Shown::Open || (seen.shown == Shown::Ohm && is_over_limit(seen, rates));
    if (nothing) return 1 - adds_ohms;
    if (seen.shown == Shown::Closed) return 0;
    return seen.ohm > predicted ? adds_ohms * anything(seen.ohm) : 0;
}

// Another circuit's wire is mostly not connected to the clip; otherwise anything.
double on_another_circuit(const Observation& seen, const harness::Assumptions& rates) {
    constexpr double not_connected = 0.7;
    switch (seen.shown) {
        case Shown::Closed:
            return 0.1;
        case Shown::Open:
            return 0.9;
        case Shown::Ohm:
            break;
    }
    return is_over_limit(seen, rates) ? not_connected : (1 - not_connected) * anything(seen.ohm);
}

// Any of the look-alikes is as likely to be taken. Without one in sight a wrong wire is still possible, but
// rare.
void add_wrong_wires(const Observation& seen, const harness::Assumptions& rates,
                     const LookAlikes& look_alikes, Likelihood& result) {
    if (look_alikes.empty()) {
        result.wrong = rates.wrong_wire / 10 * on_another_circuit(seen, rates);
        return;
    }
    const double each = rates.wrong_wire / static_cast<double>(look_alikes.size());
    for (const Predicted& wire : look_alikes) {
        result.wrong_by.push_back(
            each * (std::isnan(wire.ohm) ? on_another_circuit(seen, rates) : honest(seen, wire, rates)));
        result.wrong += result.wrong_by.back();
    }
}

}  // namespace

Likelihood likelihood(const Observation& observation, const Predicted& predicted,
                      const harness::Assumptions& rates, const LookAlikes& look_alikes) {
    // Nobody's prediction is worth more than this: keeps any one reading from ruling anything out for good.
    constexpr double floor = 1e-6;
    Likelihood result;
    if (std::isnan(predicted.ohm)) {
        result.wrong = floor;
        result.total = floor;
        result.wrong_by.assign(look_alikes.size(), 0);
        return result;
    }
    const double wrong_rate = look_alikes.empty() ? rates.wrong_wire / 10 : rates.wrong_wire;
    result.honest = honest(observation, predicted, rates);
    result.slip = rates.contact_slip * slipped(observation, predicted.ohm, rates);
    add_wrong_wires(observation, rates, look_alikes, result);
    result.wrong += floor;
    result.total = (1 - rates.contact_slip - wrong_rate) * result.honest + result.slip + result.wrong;
    return result;
}

bool distinguishable(double ohm, double other_ohm) {
    const bool open = !(ohm < meter_limit_ohm);
    const bool other_open = !(other_ohm < meter_limit_ohm);
    if (open || other_open) return open != other_open;
    const double low = std::min(ohm, other_ohm);
    const double high = std::max(ohm, other_ohm);
    return low < kilohms_from && high - low > 4 && high > 1.35 * low;
}

}  // namespace halfsplit::diagnosis
