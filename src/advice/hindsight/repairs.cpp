#include "advice/hindsight/repairs.hpp"

#include "halfsplit/job/words.hpp"

#include "advice/hindsight/outlook.hpp"
#include "advice/proof.hpp"

namespace halfsplit::advice {

using harness::Harness;
using harness::Index;
using harness::none;

namespace {

// A repair that cured names the cause; one that nobody tried, where it is likelier than not. One that did not
// cure names another cause only where all that is known holds it for all but certain.
bool is_cause(const ReviewedRepair& repair) {
    constexpr double likelier_than_not = 0.5;
    if (repair.proof == Proof::Cured) return true;
    if (repair.proof == Proof::NotCured) return repair.in_hindsight >= all_but_certain;
    return repair.in_hindsight > likelier_than_not;
}

// Seen to be faulty before this repair, and after any earlier repair of the same part.
std::vector<Look> seen_faulty(const job::State& state, std::size_t repair) {
    const job::DoneRepair& done = state.repairs[repair];
    job::Sequence from = 0;
    for (std::size_t i = 0; i < repair; ++i) {
        if (state.repairs[i].repair.part == done.repair.part) from = state.repairs[i].sequence;
    }
    std::vector<Look> looks;
    for (const job::SeenPart& seen : state.seen) {
        const bool in_time = seen.sequence > from && seen.sequence < done.sequence;
        if (in_time && seen.seen.part == done.repair.part && seen.seen.verdict == job::Verdict::Faulty)
            looks.push_back({seen.sequence, seen.seen.what});
    }
    return looks;
}

// The newest proof after each repair and before the next, as it counts at the end.
void add_proofs(const RepairsInput& input, std::vector<ReviewedRepair>& repairs) {
    for (const job::Resolved& resolved : input.resolved) {
        const auto* verified = resolved.counts ? std::get_if<job::Verified>(&resolved.event->body) : nullptr;
        if (verified == nullptr) continue;
        ReviewedRepair* last = nullptr;
        for (ReviewedRepair& repair : repairs) {
            if (repair.sequence < resolved.record->sequence) last = &repair;
        }
        if (last == nullptr) continue;
        last->verified = *verified;
        last->proof_sequence = resolved.record->sequence;
        last->proof = proof_of(*verified, input.harness, input.network);
    }
}

}  // namespace

BeforeRepair before_repair(const Harness& harness, const diagnosis::Belief& belief,
                           const std::string& part_id) {
    const Index part = find_part(harness, part_id);
    if (part == none) return {};
    BeforeRepair result{.part_chance = diagnosis::by_part(belief, harness)[part]};
    for (const diagnosis::Suspect& suspect : diagnosis::suspects(belief, harness)) {
        if (suspect.fault.part != part) continue;
        result.fault = diagnosis::name(harness, suspect.fault);
        result.fault_in_words = diagnosis::in_words(harness, suspect.fault);
        result.fault_chance = suspect.probability;
        break;
    }
    return result;
}

std::vector<ReviewedRepair> reviewed_repairs(const RepairsInput& input) {
    std::vector<ReviewedRepair> repairs;
    for (std::size_t i = 0; i < input.state.repairs.size(); ++i) {
        const job::DoneRepair& done = input.state.repairs[i];
        const Index part = find_part(input.harness, done.repair.part);
        ReviewedRepair repair{.sequence = done.sequence, .repair = done.repair};
        repair.in_words = job::in_words({done.repair, {}}, input.harness);
        repair.seen_faulty = seen_faulty(input.state, i);
        if (part != none) {
            repair.part_name = input.harness.parts[part].name;
            repair.in_hindsight = ever_faulty(input.belief, part);
        }
        const auto before = input.before.find(done.sequence);
        if (before != input.before.end()) {
            repair.fault = before->second.fault;
            repair.fault_in_words = before->second.fault_in_words;
            repair.fault_chance = before->second.fault_chance;
            repair.part_chance = before->second.part_chance;
        }
        repairs.push_back(std::move(repair));
    }
    add_proofs(input, repairs);
    for (ReviewedRepair& repair : repairs) repair.cause = is_cause(repair);
    return repairs;
}

std::vector<std::string> faulty_not_repaired(const job::State& state) {
    std::map<std::string, job::Sequence> faulty;
    for (const job::SeenPart& seen : state.seen) {
        if (seen.seen.verdict == job::Verdict::Faulty) faulty[seen.seen.part] = seen.sequence;
        if (seen.seen.verdict == job::Verdict::Sound) faulty.erase(seen.seen.part);
    }
    for (const job::DoneRepair& done : state.repairs) {
        const auto found = faulty.find(done.repair.part);
        if (found != faulty.end() && done.sequence > found->second) faulty.erase(found);
    }
    std::vector<std::string> parts;
    for (const auto& [part, ignored] : faulty) parts.push_back(part);
    return parts;
}

}  // namespace halfsplit::advice
