#include "halfsplit/report/expectation_report.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/json_out.hpp"

#include <cmath>
#include <string_view>

namespace halfsplit::report {

using electrics::Power;
using nlohmann::json;

namespace {

std::string_view state_word(Power power) {
    return power == Power::Off ? "off" : power == Power::Awake ? "awake" : "asleep";
}

json figure_json(double figure, Power power) {
    if (std::isnan(figure)) return nullptr;
    if (std::isinf(figure)) return power == Power::Off ? "OL" : "floating";
    return rounded(figure);
}

// "low_ohm", "low_volt".
std::string key(std::string_view name, Power power) {
    return std::string(name) + (power == Power::Off ? "_ohm" : "_volt");
}

json range_json(const advice::FigureRange& range, Power power) {
    return {{key("low", power), figure_json(range.low, power)},
            {key("high", power), figure_json(range.high, power)}};
}

json part_json(const advice::PartChance& part) {
    return {{"part", part.part}, {"name", part.name}, {"probability", rounded(part.probability)}};
}

json fault_json(const advice::ExpectedFault& fault, Power power) {
    json out = range_json(fault.shows, power);
    out["fault"] = fault.fault;
    out["in_words"] = fault.in_words;
    out["probability"] = rounded(fault.probability);
    return out;
}

json outcome_json(const advice::ExpectedOutcome& outcome, Power power) {
    json out = range_json(outcome.range, power);
    out["shows"] = outcome.shows;
    out["chance"] = rounded(outcome.chance);
    out["sound"] = outcome.sound;
    out["nothing_wrong"] = rounded(outcome.nothing_wrong);
    out["parts"] = listed(outcome.parts, part_json);
    out["faults"] = listed(outcome.faults,
                           [power](const advice::ExpectedFault& fault) { return fault_json(fault, power); });
    return out;
}

template <typename Reading>
json with_tips(const Reading& reading) {
    return {{"state", state_word(reading.power)},
            {"red", reading.red.name},
            {"black", reading.black.name},
            {"apart", reading.apart},
            {"cautions", reading.cautions}};
}

}  // namespace

json expectation_json(const advice::Expectation& expectation, const std::string& basis) {
    json out = with_tips(expectation);
    out["basis"] = basis;
    const Power power = expectation.power;
    out["sound"] = range_json(expectation.sound, power);
    out["outcomes"] = listed(expectation.outcomes, [power](const advice::ExpectedOutcome& outcome) {
        return outcome_json(outcome, power);
    });
    return out;
}

json fault_expectation_json(const advice::FaultExpectation& expectation, const std::string& fault) {
    json out = with_tips(expectation);
    out["fault"] = fault;
    out["variant"] = expectation.variant;
    const Power power = expectation.power;
    out[key("sound", power)] = figure_json(expectation.sound, power);
    out["readings"] = listed(expectation.readings, [power](const advice::FaultReading& reading) {
        json one{{power == Power::Off ? "ohm" : "volt", figure_json(reading.shows, power)},
                 {"told", reading.told}};
        if (reading.fault_ohm > 0) one["fault_ohm"] = rounded(reading.fault_ohm);
        return one;
    });
    return out;
}

json point_table_json(const advice::PointTable& table, const std::string& fault) {
    const Power power = table.power;
    const std::string_view lead = power == Power::Off ? "to_clip" : "to_ground";
    json out{{"state", state_word(power)},
             {"clip", table.clip},
             {"variant", table.variant},
             {"apart", table.apart}};
    if (!fault.empty()) out["fault"] = fault;
    out["points"] = listed(table.rows, [power, lead](const advice::PointRow& row) {
        return json{{"point", row.point},
                    {"part_name", row.part_name},
                    {key(fmt::format("h_{}", lead), power), figure_json(row.h, power)},
                    {key(fmt::format("l_{}", lead), power), figure_json(row.l, power)},
                    {key("h_to_l", power), figure_json(row.h_to_l, power)},
                    {"h_told", row.h_told},
                    {"l_told", row.l_told},
                    {"h_to_l_told", row.across_told}};
    });
    return out;
}

}  // namespace halfsplit::report
