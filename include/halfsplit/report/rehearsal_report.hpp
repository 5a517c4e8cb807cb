// How rehearsals went, as text and as data. Pure.
#pragma once

#include "halfsplit/harness/harness.hpp"
#include "halfsplit/session/rehearsal.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::report {

struct RehearsedFault {
    std::string name;
    double weight = 0;  // assumed chance of this fault, among all
    bool found = false;
    std::size_t probes = 0, looks = 0;
    double minutes = 0;
};

struct RehearsalSummary {
    std::vector<RehearsedFault> faults;
    std::size_t found = 0;
    double mean_minutes = 0;      // each fault counts alike
    double expected_minutes = 0;  // each fault counts by its assumed chance
    double worst_minutes = 0;
    std::string worst_fault;
    double mean_probes = 0;
};

RehearsalSummary summarise(std::vector<RehearsedFault> faults);
std::string every_text(const RehearsalSummary& summary, std::size_t columns);
nlohmann::json every_json(const RehearsalSummary& summary);

// One rehearsal, step by step.
std::string played_text(const session::Played& played, const std::string& fault,
                        const harness::Harness& harness, std::size_t columns);
nlohmann::json played_json(const session::Played& played, const std::string& fault,
                           const harness::Harness& harness);

}  // namespace halfsplit::report
