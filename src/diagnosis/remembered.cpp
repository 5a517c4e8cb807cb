#include "diagnosis/remembered.hpp"

#include <algorithm>
#include <functional>

namespace halfsplit::diagnosis {

namespace {

// A row of a few hundred bytes each: some hundred megabytes. Then it begins anew.
constexpr std::size_t most_rows = 200'000;

bool same_tips(const Measured& a, const Measured& b) {
    return a.tips == b.tips && a.look_alikes == b.look_alikes;
}

bool same_reading(const Measured& a, const Measured& b) {
    return same_tips(a, b) && a.observation == b.observation && a.volts == b.volts &&
           a.situation.apart == b.situation.apart;
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

bool Remembered::use(const harness::Assumptions& rates) {
    if (rates_ == rates && rows_.size() < most_rows) return true;
    rates_ = rates;
    rows_.clear();
    return false;
}

Remembered::Number Remembered::number_of(const Measured& measured) {
    std::optional<std::size_t> tips;
    for (std::size_t i = 0; i < measured_.size(); ++i) {
        if (!same_tips(measured, measured_[i])) continue;
        if (same_reading(measured, measured_[i])) return {i, tips_[i]};
        tips = tips_[i];
    }
    measured_.push_back(measured);
    tips_.push_back(tips.value_or(tips_.size()));
    return {measured_.size() - 1, tips_.back()};
}

std::size_t Remembered::arrangement_of(const electrics::Apart& apart) {
    const auto known = std::find(arrangements_.begin(), arrangements_.end(), apart);
    if (known != arrangements_.end()) return static_cast<std::size_t>(known - arrangements_.begin());
    arrangements_.push_back(apart);
    return arrangements_.size() - 1;
}

Remembered::Row& Remembered::row(const harness::Harness& harness, const Explanation& explanation,
                                 const Situation& situation, electrics::Power power) {
    Key key{arrangement_of(situation.apart), explanation.variant, power,
            remaining(harness, explanation, situation)};
    const bool keeps = key.faults.size() < 2;
    return rows_.try_emplace(key, Row{.keeps_foreseen = keeps}).first->second;
}

}  // namespace halfsplit::diagnosis
