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

// Leads, contacts and meter: 0.5 ohm and 5 % (terminators 100 to 130 ohm stand behind the 5 %).
double within_tolerance(double ohm, double predicted) {
    const double sigma = 0.5 + 0.05 * predicted;
    const double off = (ohm - predicted) / sigma;
    return std::min(1.0, cell(ohm) / (sigma * std::sqrt(2 * std::numbers::pi)) * std::exp(-off * off / 2));
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

double honest(const Observation& seen, double predicted, const harness::Assumptions& rates) {
    const bool predicted_open = !(predicted < meter_limit_ohm);
    switch (seen.shown) {
        case Shown::Closed:
            return predicted_open ? 0 : beep(predicted, rates);
        case Shown::Open:
            return predicted_open ? 1 : 1 - beep(predicted, rates);
        case Shown::Ohm:
            break;
    }
    if (seen.ohm >= meter_limit_ohm) return predicted_open ? 1 : beyond_the_range(predicted);
    return predicted_open ? 0 : within_tolerance(seen.ohm, predicted);
}

// A bad contact mostly shows nothing at all; now and then it only adds ohms.
double slipped(const Observation& seen, double predicted) {
    constexpr double adds_ohms = 0.1;
    if (seen.shown == Shown::Open || (seen.shown == Shown::Ohm && seen.ohm >= meter_limit_ohm))
        return 1 - adds_ohms;
    if (seen.shown == Shown::Closed) return 0;
    return seen.ohm > predicted ? adds_ohms * anything(seen.ohm) : 0;
}

// Another circuit's wire is mostly not connected to the clip; otherwise anything.
double on_wrong_wire(const Observation& seen) {
    constexpr double not_connected = 0.7;
    switch (seen.shown) {
        case Shown::Closed:
            return 0.1;
        case Shown::Open:
            return 0.9;
        case Shown::Ohm:
            break;
    }
    return seen.ohm >= meter_limit_ohm ? not_connected : (1 - not_connected) * anything(seen.ohm);
}

}  // namespace

Likelihood likelihood(const Observation& observation, double predicted_ohm,
                      const harness::Assumptions& rates) {
    // Without a look-alike in sight a wrong wire is still possible, but rare.
    const double wrong_rate = observation.look_alikes ? rates.wrong_wire : rates.wrong_wire / 10;
    // Nobody's prediction is worth more than this: keeps any one reading from ruling anything out for good.
    constexpr double floor = 1e-6;
    Likelihood result;
    if (std::isnan(predicted_ohm)) {
        result.wrong = floor;
        result.total = floor;
        return result;
    }
    result.honest = honest(observation, predicted_ohm, rates);
    result.slip = rates.contact_slip * slipped(observation, predicted_ohm);
    result.wrong = wrong_rate * on_wrong_wire(observation) + floor;
    result.total = (1 - rates.contact_slip - wrong_rate) * result.honest + result.slip + result.wrong;
    return result;
}

bool distinguishable(double ohm, double other_ohm) {
    const bool open = !(ohm < meter_limit_ohm);
    const bool other_open = !(other_ohm < meter_limit_ohm);
    if (open || other_open) return open != other_open;
    const double low = std::min(ohm, other_ohm);
    const double high = std::max(ohm, other_ohm);
    return high - low > 1.5 && high > 1.35 * low;
}

}  // namespace halfsplit::diagnosis
