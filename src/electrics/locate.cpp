// Where on a stretch a fault lies.
#include "halfsplit/electrics/stretch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace halfsplit::electrics {

namespace {

using Items = std::vector<StretchItem>;

// A contact has ohms and no length: within its ohms the metres stand still.
double metres_at(const Items& items, double ohm) {
    for (const StretchItem& item : items) {
        if (ohm > item.to_ohm) continue;
        const double ohms = item.to_ohm - item.from_ohm;
        const double share = ohms > 0 ? std::clamp((ohm - item.from_ohm) / ohms, 0.0, 1.0) : 0;
        return item.from_m + share * (item.to_m - item.from_m);
    }
    return items.back().to_m;
}

Uncertain farads(double figure, const DistanceTolerance& tolerance) {
    return {figure, std::hypot(tolerance.farad, tolerance.of_farad * figure)};
}

Uncertain ohms(double figure, const DistanceTolerance& tolerance) {
    return {figure, std::hypot(tolerance.ohm, tolerance.of_ohm * figure)};
}

// Both readings hold the fault's own ohms: together they cannot be less than the wire.
void require_wire(double wire_ohm, double first, double second, const DistanceTolerance& tolerance) {
    const double deviation = std::hypot(ohms(first, tolerance).deviation, ohms(second, tolerance).deviation,
                                        tolerance.of_copper * wire_ohm);
    if (first + second >= wire_ohm - most_deviations * deviation) return;
    throw ImpossibleDistance(
        fmt::format("the two figures together are {:.3g} ohm, and the wire alone has {:.3g} ohm",
                    first + second, wire_ohm));
}

Uncertain ohms_to_fault(double wire_ohm, DistanceMethod method, DistanceLines lines, double first,
                        double second, const DistanceTolerance& tolerance) {
    if (method == DistanceMethod::Loop) {
        if (lines == DistanceLines::Between)
            throw ImpossibleDistance("a loop bridge finds a short of one line to ground");
        return distance_by_murray({wire_ohm, 0}, {first, tolerance.of_arm * first},
                                  {second, tolerance.of_arm * second});
    }
    const double conductors = lines == DistanceLines::Between ? 2 : 1;
    const Uncertain fault = distance_by_ohms({wire_ohm, 0}, ohms(first, tolerance), ohms(second, tolerance),
                                             {1, tolerance.of_copper}, conductors);
    require_wire(conductors * wire_ohm, first, second, tolerance);
    return fault;
}

}  // namespace

const Items& measured_line(const Stretch& stretch, DistanceLines lines) {
    return lines == DistanceLines::Low ? stretch.low : stretch.high;
}

Uncertain locate(const Stretch& stretch, DistanceMethod method, DistanceLines lines, double first,
                 double second, const DistanceTolerance& tolerance) {
    const double length = stretch.length_m;
    if (method == DistanceMethod::Capacitance) {
        const Uncertain found = distance_by_capacitance({length, tolerance.length * length},
                                                        farads(first, tolerance), farads(second, tolerance));
        return {found.value, std::hypot(found.deviation, tolerance.metres)};
    }
    const Items& items = measured_line(stretch, lines);
    const double wire_ohm = items.back().to_ohm;
    const Uncertain ohm = ohms_to_fault(wire_ohm, method, lines, first, second, tolerance);
    const double metres = metres_at(items, ohm.value);
    return {metres,
            std::hypot(ohm.deviation * length / wire_ohm, tolerance.length * metres, tolerance.metres)};
}

}  // namespace halfsplit::electrics
