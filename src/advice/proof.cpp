#include "advice/proof.hpp"

#include "halfsplit/advice/right_resistance.hpp"

namespace halfsplit::advice {

Proof proof_of(const job::Verified& verified, const harness::Harness& harness, harness::Index network) {
    const auto right = verified.h_to_l_ohm ? right_resistance(harness, network) : std::nullopt;
    const bool resistance_is_wrong = right && !right->accepts(*verified.h_to_l_ohm);
    if (verified.complaint_gone == false || verified.all_answer == false || resistance_is_wrong)
        return Proof::NotCured;
    if (verified.complaint_gone == true) return Proof::Cured;
    const bool anything = verified.h_to_l_ohm || verified.all_answer || verified.codes_clear;
    return anything ? Proof::Partial : Proof::None;
}

}  // namespace halfsplit::advice
