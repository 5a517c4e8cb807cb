#include "halfsplit/electrics/distance.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>

namespace halfsplit::electrics {

namespace {

void require_sound(std::initializer_list<Uncertain> figures) {
    for (const Uncertain& figure : figures) {
        if (!std::isfinite(figure.value) || !std::isfinite(figure.deviation))
            throw ImpossibleDistance("a figure is over the range or not a number");
        if (figure.value < 0 || figure.deviation < 0)
            throw ImpossibleDistance(fmt::format("{:g} is below zero", figure.value));
    }
}

void require_some(const Uncertain& figure, const char* what) {
    if (figure.value <= 0) throw ImpossibleDistance(fmt::format("{} is zero", what));
}

// Root of the sum of squares: what several independent deviations come to.
double together(std::initializer_list<double> deviations) {
    double sum = 0;
    for (const double deviation : deviations) sum += deviation * deviation;
    return std::sqrt(sum);
}

// whole * part / (part + rest)
Uncertain share(Uncertain whole, Uncertain part, Uncertain rest) {
    require_sound({whole, part, rest});
    require_some(whole, "the length");
    const double sum = part.value + rest.value;
    if (sum <= 0) throw ImpossibleDistance("the two figures add up to nothing");
    const double by_part = whole.value * rest.value / (sum * sum);
    const double by_rest = whole.value * part.value / (sum * sum);
    return {whole.value * part.value / sum, together({by_part * part.deviation, by_rest * rest.deviation,
                                                      part.value / sum * whole.deviation})};
}

Uncertain within(double length, Uncertain distance) {
    const double outside = std::max(-distance.value, distance.value - length);
    if (outside > most_deviations * distance.deviation) {
        throw ImpossibleDistance(
            fmt::format("the figures put the fault {:.3g} outside a length of {:.3g}", outside, length));
    }
    return {std::clamp(distance.value, 0.0, length), distance.deviation};
}

}  // namespace

Uncertain distance_by_capacitance(Uncertain length, Uncertain near, Uncertain far) {
    return share(length, near, far);
}

Uncertain distance_by_ohms(Uncertain length, Uncertain near, Uncertain far, Uncertain ohm_per_length,
                           double conductors) {
    require_sound({length, near, far, ohm_per_length, {conductors, 0}});
    require_some(length, "the length");
    require_some(ohm_per_length, "the resistance of the wire");
    require_some({conductors, 0}, "the number of conductors");
    const double by_ohm = 1 / (2 * conductors * ohm_per_length.value);
    const double from_middle = (near.value - far.value) * by_ohm;
    return within(length.value,
                  {length.value / 2 + from_middle,
                   together({length.deviation / 2, by_ohm * near.deviation, by_ohm * far.deviation,
                             from_middle / ohm_per_length.value * ohm_per_length.deviation})});
}

Uncertain distance_by_murray(Uncertain length, Uncertain p, Uncertain q) {
    return within(length.value, share({2 * length.value, 2 * length.deviation}, q, p));
}

Uncertain ohms_by_murray(Uncertain loop_ohm, Uncertain p, Uncertain q) {
    return share(loop_ohm, q, p);
}

Uncertain ohms_by_varley(Uncertain p, Uncertain q, Uncertain s_fault, Uncertain s_loop) {
    require_sound({p, q, s_fault, s_loop});
    if (s_loop.value < s_fault.value)
        throw ImpossibleDistance("the balance around the loop is below the one to the fault");
    const double steps = s_loop.value - s_fault.value;
    const Uncertain ratio = share({1, 0}, p, q);
    return {ratio.value * steps, together({ratio.deviation * steps, ratio.value * s_fault.deviation,
                                           ratio.value * s_loop.deviation})};
}

Uncertain length_of(Uncertain ohm, Uncertain ohm_per_length) {
    require_sound({ohm, ohm_per_length});
    require_some(ohm_per_length, "the resistance of the wire");
    const double length = ohm.value / ohm_per_length.value;
    return {length, together({ohm.deviation / ohm_per_length.value,
                              length / ohm_per_length.value * ohm_per_length.deviation})};
}

}  // namespace halfsplit::electrics
