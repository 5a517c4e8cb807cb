// A job in which readings are next: complaint, scan and safe state are there.
#pragma once

#include "halfsplit/job/state.hpp"

#include <string>
#include <utility>
#include <vector>

namespace halfsplit::test {

inline job::State begun(std::vector<std::string> answering, std::vector<std::string> silent) {
    job::State state;
    state.intake.emplace().complaint = "dead";
    state.safe_state = job::SafeState{true, true, true, 10};
    state.safe_state_at = 2;
    job::Scan scan{.sequence = 1, .answers = {}, .state = {}};
    scan.answers.answering = std::move(answering);
    scan.answers.silent = std::move(silent);
    state.scans.push_back(std::move(scan));
    return state;
}

}  // namespace halfsplit::test
