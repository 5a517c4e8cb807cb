#include "advice/proof.hpp"

namespace halfsplit::advice {

bool resistance_is_right(double h_to_l_ohm, const harness::Network& network) {
    const double nominal = network.terminator_ohm / 2;
    return h_to_l_ohm >= 0.9 * nominal && h_to_l_ohm <= 1.15 * nominal;
}

Proof proof_of(const job::Verified& verified, const harness::Network& network) {
    const bool resistance_is_wrong =
        verified.h_to_l_ohm.has_value() && !resistance_is_right(*verified.h_to_l_ohm, network);
    if (verified.complaint_gone == false || verified.all_answer == false || resistance_is_wrong)
        return Proof::NotCured;
    if (verified.complaint_gone == true) return Proof::Cured;
    const bool anything = verified.h_to_l_ohm || verified.all_answer || verified.codes_clear;
    return anything ? Proof::Partial : Proof::None;
}

}  // namespace halfsplit::advice
