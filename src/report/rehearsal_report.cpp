#include "halfsplit/report/rehearsal_report.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/job/words.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/json_out.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::report {

using nlohmann::json;

namespace {

bool is_advice(const job::Record& record) {
    return std::holds_alternative<job::Recommended>(record.event.body);
}

json to_json(const RehearsedFault& fault) {
    return {{"fault", fault.name},  {"chance", rounded(fault.weight)},
            {"found", fault.found}, {"probes", fault.probes},
            {"looks", fault.looks}, {"minutes", rounded(fault.minutes)}};
}

}  // namespace

RehearsalSummary summarise(std::vector<RehearsedFault> faults) {
    RehearsalSummary summary;
    double weight = 0;
    for (const RehearsedFault& fault : faults) {
        summary.found += fault.found ? 1 : 0;
        summary.mean_minutes += fault.minutes;
        summary.expected_minutes += fault.weight * fault.minutes;
        summary.mean_probes += static_cast<double>(fault.probes);
        weight += fault.weight;
        if (fault.minutes >= summary.worst_minutes) {
            summary.worst_minutes = fault.minutes;
            summary.worst_fault = fault.name;
        }
    }
    const double count = std::max(1.0, static_cast<double>(faults.size()));
    summary.mean_minutes /= count;
    summary.mean_probes /= count;
    if (weight > 0) summary.expected_minutes /= weight;
    summary.faults = std::move(faults);
    return summary;
}

std::string every_text(const RehearsalSummary& summary, std::size_t columns) {
    std::string text;
    for (const RehearsedFault& fault : summary.faults) {
        text +=
            wrap(fmt::format("{:<9} {:<24} {:>2} probes {:>2} looks  {}", fault.found ? "found" : "NOT FOUND",
                             fault.name, fault.probes, fault.looks, format_minutes(fault.minutes)),
                 columns, 10) +
            "\n";
    }
    text += wrap(fmt::format(
                     "{} of {} single faults found. Minutes: mean {}, by assumed chance {}, worst {} ({}). "
                     "Probes: mean {:.1f}.",
                     summary.found, summary.faults.size(), format_minutes(summary.mean_minutes),
                     format_minutes(summary.expected_minutes), format_minutes(summary.worst_minutes),
                     summary.worst_fault, summary.mean_probes),
                 columns) +
            "\n";
    return text;
}

json every_json(const RehearsalSummary& summary) {
    json faults = json::array();
    for (const RehearsedFault& fault : summary.faults) faults.push_back(to_json(fault));
    return {{"faults", std::move(faults)},
            {"found", summary.found},
            {"mean_minutes", rounded(summary.mean_minutes)},
            {"expected_minutes", rounded(summary.expected_minutes)},
            {"worst_minutes", rounded(summary.worst_minutes)},
            {"worst_fault", summary.worst_fault},
            {"mean_probes", rounded(summary.mean_probes)}};
}

std::string played_text(const session::Played& played, const std::string& fault,
                        const harness::Harness& harness, std::size_t columns) {
    std::string text;
    for (const job::Record& record : played.records) {
        if (is_advice(record)) continue;
        const auto minutes = static_cast<double>(record.time) / 60.0;
        text += wrap(fmt::format("{:>5.0f} min  {}", minutes, job::in_words(record.event, harness)), columns,
                     11) +
                "\n";
    }
    text += wrap(fmt::format("{}: {} after {} and {}, {} (expected at the start: {}).", fault,
                             played.found ? "found" : "NOT FOUND", counted(played.probes, "probe"),
                             counted(played.looks, "look"), format_minutes(played.minutes),
                             format_minutes(played.expected_minutes)),
                 columns) +
            "\n";
    return text;
}

json played_json(const session::Played& played, const std::string& fault, const harness::Harness& harness) {
    json steps = json::array();
    for (const job::Record& record : played.records) {
        if (is_advice(record)) continue;
        steps.push_back({{"minutes", rounded(static_cast<double>(record.time) / 60.0)},
                         {"kind", job::kind(record.event)},
                         {"in_words", job::in_words(record.event, harness)}});
    }
    return {{"fault", fault},
            {"found", played.found},
            {"probes", played.probes},
            {"looks", played.looks},
            {"minutes", rounded(played.minutes)},
            {"expected_minutes", rounded(played.expected_minutes)},
            {"steps", std::move(steps)}};
}

}  // namespace halfsplit::report
