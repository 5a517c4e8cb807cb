#include "halfsplit/report/expectation_report.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace halfsplit::report {

using nlohmann::json;

namespace {

double rounded(double value) {
    return std::round(value * 1e4) / 1e4;
}

json ohm_json(double ohm) {
    if (std::isnan(ohm)) return nullptr;
    if (std::isinf(ohm)) return "OL";
    return rounded(ohm);
}

json range_json(const advice::OhmRange& range) {
    return {{"low_ohm", ohm_json(range.low)}, {"high_ohm", ohm_json(range.high)}};
}

template <typename Items, typename Each>
json listed(const Items& items, Each each) {
    json out = json::array();
    for (const auto& item : items) out.push_back(each(item));
    return out;
}

json part_json(const advice::PartChance& part) {
    return {{"part", part.part}, {"name", part.name}, {"probability", rounded(part.probability)}};
}

json fault_json(const advice::ExpectedFault& fault) {
    json out = range_json(fault.shows);
    out["fault"] = fault.fault;
    out["in_words"] = fault.in_words;
    out["probability"] = rounded(fault.probability);
    return out;
}

json outcome_json(const advice::ExpectedOutcome& outcome) {
    json out = range_json(outcome.ohm);
    out["shows"] = outcome.shows;
    out["chance"] = rounded(outcome.chance);
    out["sound"] = outcome.sound;
    out["nothing_wrong"] = rounded(outcome.nothing_wrong);
    out["parts"] = listed(outcome.parts, part_json);
    out["faults"] = listed(outcome.faults, fault_json);
    return out;
}

template <typename Reading>
json with_tips(const Reading& reading) {
    return {{"red", reading.red.name},
            {"black", reading.black.name},
            {"apart", reading.apart},
            {"cautions", reading.cautions}};
}

}  // namespace

json expectation_json(const advice::Expectation& expectation, const std::string& basis) {
    json out = with_tips(expectation);
    out["basis"] = basis;
    out["sound"] = range_json(expectation.sound);
    out["outcomes"] = listed(expectation.outcomes, outcome_json);
    return out;
}

json fault_expectation_json(const advice::FaultExpectation& expectation, const std::string& fault) {
    json out = with_tips(expectation);
    out["fault"] = fault;
    out["variant"] = expectation.variant;
    out["sound_ohm"] = ohm_json(expectation.sound);
    out["readings"] = listed(expectation.readings, [](const advice::FaultReading& reading) {
        json one{{"ohm", ohm_json(reading.shows)}, {"told", reading.told}};
        if (reading.fault_ohm > 0) one["fault_ohm"] = rounded(reading.fault_ohm);
        return one;
    });
    return out;
}

json point_table_json(const advice::PointTable& table, const std::string& fault) {
    json out{{"clip", table.clip}, {"variant", table.variant}, {"apart", table.apart}};
    if (!fault.empty()) out["fault"] = fault;
    out["points"] = listed(table.rows, [](const advice::PointRow& row) {
        return json{{"point", row.point},
                    {"part_name", row.part_name},
                    {"h_to_clip_ohm", ohm_json(row.h_to_clip)},
                    {"l_to_clip_ohm", ohm_json(row.l_to_clip)},
                    {"h_to_l_ohm", ohm_json(row.h_to_l)},
                    {"h_told", row.h_told},
                    {"l_told", row.l_told},
                    {"h_to_l_told", row.across_told}};
    });
    return out;
}

}  // namespace halfsplit::report
