#include "advice/hindsight/to_do.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace halfsplit::advice {

std::string in_words(const Named& named) {
    return named.name.empty() || named.name == named.id ? named.id
                                                        : fmt::format("{} ({})", named.id, named.name);
}

std::string_view word(FaultProof proof) {
    constexpr std::array<std::string_view, 4> words{"none", "suspected", "read", "seen"};
    return words[static_cast<std::size_t>(proof)];
}

namespace {

FaultProof fault_proof_of(const ReviewedRepair& repair) {
    if (!repair.seen_faulty.empty()) return FaultProof::Seen;
    return repair.part_chance >= all_but_certain ? FaultProof::Read : FaultProof::Suspected;
}

std::string find_the_fault(const OpenEnds& open, const std::string& why) {
    return "find the fault" + why + (open.advised.empty() ? "" : " (advised: " + open.advised + ")");
}

// What the repairs leave to be done.
void add_repairs(const Review& review, std::vector<std::string>& to_do) {
    for (const Named& part : review.open.faulty_not_repaired)
        to_do.push_back("repair " + in_words(part) + ", which was seen faulty");
    if (review.repairs.empty()) {
        if (!review.open.closed && review.open.faulty_not_repaired.empty())
            to_do.push_back(find_the_fault(review.open, ""));
        return;
    }
    const ReviewedRepair& last = review.repairs.back();
    if (last.proof == Proof::NotCured) {
        to_do.push_back(find_the_fault(review.open,
                                       fmt::format(", for the repair of {} did not cure", last.repair.part)));
    } else if (last.proof != Proof::Cured) {
        to_do.push_back(fmt::format("prove the repair of {}{}", last.repair.part,
                                    last.proof == Proof::Partial ? ": try the complaint again" : ""));
    }
}

}  // namespace

FaultProof fault_proof(const Review& review) {
    FaultProof least = FaultProof::Seen;
    bool any = !review.open.faulty_not_repaired.empty();
    for (const ReviewedRepair& repair : review.repairs) {
        if (!repair.cause) continue;
        any = true;
        least = std::min(least, fault_proof_of(repair));
    }
    return any ? least : FaultProof::None;
}

std::vector<std::string> to_do(const Review& review) {
    std::vector<std::string> result;
    for (const Contradiction& contradiction : review.contradictions) {
        if (unsettled(contradiction))
            result.push_back(fmt::format("read {} to {} again: record {} does not fit",
                                         contradiction.doubt.red, contradiction.doubt.black,
                                         contradiction.doubt.sequence));
    }
    add_repairs(review, result);
    for (const Named& part : review.open.parts_apart) result.push_back("plug in " + in_words(part));
    for (auto cover = review.open.covers_off.rbegin(); cover != review.open.covers_off.rend(); ++cover)
        result.push_back("put back " + in_words(*cover));
    if (!review.open.closed) result.emplace_back("close the job");
    return result;
}

}  // namespace halfsplit::advice
