#include "diagnosis/remembered.hpp"

#include <algorithm>
#include <functional>

namespace halfsplit::diagnosis {

namespace {

// A row of a few hundred bytes each: some hundred megabytes. Then it begins anew.
constexpr std::size_t most_rows = 200'000;

bool same_reading(const Measured& a, const Measured& b) {
    const auto alike = [](const LookAlike& one, const LookAlike& other) {
        return one.red == other.red && one.terminal == other.terminal;
    };
    return a.tips == b.tips && a.observation.shown == b.observation.shown &&
           a.observation.ohm == b.observation.ohm && a.volts == b.volts &&
           a.situation.apart == b.situation.apart &&
           std::equal(a.look_alikes.begin(), a.look_alikes.end(), b.look_alikes.begin(), b.look_alikes.end(),
                      alike);
}

void stir(std::size_t& hash, std::size_t value) {
    hash ^= value + 0x9e3779b97f4a7c15ULL + (hash << 6U) + (hash >> 2U);
}

}  // namespace

std::size_t Remembered::Hash::operator()(const Key& key) const {
    std::size_t hash = key.arrangement;
    stir(hash, key.variant);
    stir(hash, static_cast<std::size_t>(key.power));
    for (const Fault& fault : key.faults) {
        stir(hash, fault.part);
        stir(hash, static_cast<std::size_t>(fault.mode) * 4 + static_cast<std::size_t>(fault.lines));
        stir(hash, fault.terminal);
        stir(hash, fault.run);
        stir(hash, std::hash<double>()(fault.ohm));
    }
    return hash;
}

void Remembered::use(const harness::Assumptions& rates) {
    if (rates_ == rates && rows_.size() < most_rows) return;
    rates_ = rates;
    rows_.clear();
}

std::size_t Remembered::number_of(const Measured& measured) {
    const auto known = std::find_if(measured_.begin(), measured_.end(),
                                    [&](const Measured& other) { return same_reading(measured, other); });
    if (known == measured_.end()) {
        measured_.push_back(measured);
        return measured_.size() - 1;
    }
    return static_cast<std::size_t>(known - measured_.begin());
}

std::size_t Remembered::arrangement_of(const electrics::Apart& apart) {
    const auto known = std::find(arrangements_.begin(), arrangements_.end(), apart);
    if (known != arrangements_.end()) return static_cast<std::size_t>(known - arrangements_.begin());
    arrangements_.push_back(apart);
    return arrangements_.size() - 1;
}

Remembered::Row& Remembered::row(const harness::Harness& harness, const Explanation& explanation,
                                 const Situation& situation, electrics::Power power) {
    return rows_[{arrangement_of(situation.apart), explanation.variant, power,
                  remaining(harness, explanation, situation)}];
}

}  // namespace halfsplit::diagnosis
