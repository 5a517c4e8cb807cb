// What a review says of proofs, contradictions, minutes and the log: the same words on the screen and on the
// page.
#pragma once

#include "halfsplit/advice/review.hpp"

#include <string>
#include <vector>

namespace halfsplit::report {

std::string proof_in_full(const advice::ReviewedRepair& repair);  // with what was tried and what was not
std::string seen_words(const advice::ReviewedRepair& repair);     // who saw the fault, or that nobody did
std::string read_words(const advice::ReviewedRepair& repair);     // what the readings held against the part
std::string hindsight_words(const advice::ReviewedRepair& repair);
bool reseated_only(const advice::ReviewedRepair& repair);  // cured by no more than that
inline constexpr const char* reseat_caution = "reseating alone may cure for a while only (common practice)";
std::string fault_words(advice::FaultProof proof);  // "seen"
std::string weakness_words(const advice::WeakEvidence& weak);
std::string contradiction_words(const advice::Contradiction& contradiction);  // what does not fit
std::string settled_words(const advice::Contradiction& contradiction);        // and what became of it
std::string repeat_words(const advice::ReviewStep& step);
// One kind of cost over the detours that count: "4 min more, 13 min less"; empty: nothing. What cost more and
// what cost less are not set off against each other.
std::string detour_sum(const advice::Review& review, advice::Detour::Basis basis);
// Readings and looks that nobody had asked advice for, a sentence; empty: none.
std::string unadvised_words(const advice::Review& review);
std::string expected_words(const advice::ReviewedMinutes& minutes);
std::string to_find_words(const advice::ReviewedMinutes& minutes);
std::string pauses_words(const advice::ReviewedMinutes& minutes);   // "45 min away (1 pause)", or empty
std::string by_hand_words(const advice::ReviewedMinutes& minutes);  // or empty
std::string work_words(const std::vector<advice::Spent>& all);      // "travel 4 min, opening 12 min"
std::string log_words(const advice::LogState& log);                 // whether it is whole
std::string harness_words(const advice::Review& review);            // the harness in it and its fingerprint

}  // namespace halfsplit::report
