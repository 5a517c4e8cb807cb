#include "report/review_sentences.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/review_words.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::report {

using advice::Contradiction;
using advice::Detour;
using advice::Proof;
using advice::Review;
using advice::ReviewedMinutes;
using advice::ReviewedRepair;
using advice::ReviewStep;

namespace {

template <typename Value>
std::string tried(const std::optional<Value>& value, std::string_view yes, std::string_view no,
                  std::string_view untried) {
    return std::string(!value ? untried : *value ? yes : no);
}

}  // namespace

std::string seen_words(const ReviewedRepair& repair) {
    std::vector<std::string> words;
    for (const advice::Look& look : repair.seen_faulty) {
        words.push_back(fmt::format("seen faulty (record {}){}", look.sequence,
                                    look.what.empty() ? "" : ": " + look.what));
    }
    return words.empty() ? "repaired on suspicion: nobody had seen it faulty" : join(words, "; ");
}

std::string read_words(const ReviewedRepair& repair) {
    if (repair.fault.empty()) return "the log held nothing against this part";
    return fmt::format("{}: {} just before the repair", repair.fault_in_words, chance_words(repair));
}

std::string proof_in_full(const ReviewedRepair& repair) {
    if (!repair.verified) return proof_words(repair);
    const job::Verified& verified = *repair.verified;
    std::vector<std::string> words;
    words.push_back(verified.h_to_l_ohm ? "H to L " + format_ohm(*verified.h_to_l_ohm) : "H to L not read");
    words.push_back(
        tried(verified.all_answer, "all modules answer", "not all modules answer", "answers not scanned"));
    words.push_back(tried(verified.codes_clear, "codes clear", "codes stored again", "codes not scanned"));
    words.push_back(
        tried(verified.complaint_gone, "complaint gone", "complaint is back", "complaint not tried again"));
    return proof_words(repair) + ": " + join(words, ", ");
}

bool reseated_only(const ReviewedRepair& repair) {
    return repair.proof == Proof::Cured && repair.repair.action == job::RepairAction::Reseated;
}

std::string settled_words(const Contradiction& contradiction) {
    std::vector<std::string> words;
    const std::string corrected = correction_words(contradiction.undone_by, contradiction.amended_by);
    if (!corrected.empty()) words.push_back(corrected);
    if (contradiction.reread_by != 0)
        words.push_back(fmt::format("read again in record {}, which fits", contradiction.reread_by));
    if (unsettled(contradiction))
        words.push_back("STILL DOES NOT FIT: " + format_chance(*contradiction.at_end));
    if (words.empty()) words.emplace_back(contradiction.at_end ? "it fits" : "it no longer counts");
    return join(words, "; ");
}

std::string hindsight_words(const ReviewedRepair& repair) {
    return format_chance(repair.in_hindsight) + " that this part had been at fault" +
           (repair.cause || repair.proof == Proof::None ? "" : "; it may have been a good part");
}

std::string fault_words(advice::FaultProof proof) {
    switch (proof) {
        case advice::FaultProof::None:
            return "not found";
        case advice::FaultProof::Suspected:
            return "not proven: repaired on suspicion";
        case advice::FaultProof::Read:
            return "proven by readings; nobody saw it";
        case advice::FaultProof::Seen:
            return "proven: seen by eye";
    }
    return "";
}

std::string weakness_words(const advice::WeakEvidence& weak) {
    const std::string moved = format_chance(weak.moved) + " of the suspicion moved on it";
    switch (weak.weakness) {
        case advice::Weakness::Open:
            return fmt::format(
                "a bad probe contact reads the same, and it was not read again: chance of that {}; {}",
                format_chance(weak.chance_of_slip), moved);
        case advice::Weakness::Beep:
            return "a buzzer sounds at tens of ohms too, and no figure was read; " + moved;
        case advice::Weakness::Doubtful:
            return fmt::format("it fits badly: chance of a slip or a wrong wire {}; {}",
                               format_chance(weak.chance_of_slip), moved);
    }
    return "";
}

std::string contradiction_words(const Contradiction& contradiction) {
    const advice::Doubt& doubt = contradiction.doubt;
    return fmt::format(
        "{} to {} showed {}; the rest of the log expects {}. Did not fit from record {} on; "
        "chance of a slip or a wrong wire {}.",
        doubt.red, doubt.black, doubt.shown, doubt.expected, contradiction.since,
        format_chance(contradiction.chance_at_most));
}

std::string repeat_words(const ReviewStep& step) {
    std::vector<std::string> words;
    if (step.repeat_of != 0)
        words.push_back(fmt::format("repeats record {} in the same state", step.repeat_of));
    if (step.pointless) words.emplace_back("told as good as nothing");
    if (step.heed == advice::Heed::Followed) words.emplace_back("it was advised");
    if (!step.counts) words.emplace_back("undone");
    words.push_back(format_minutes(std::max(0.0, step.minutes)));
    return join(words, "; ");
}

std::string detour_sum(const Review& review, Detour::Basis basis) {
    double more = 0;
    double less = 0;
    for (const Detour& detour : review.detours) {
        if (!detour.counts || detour.basis != basis) continue;
        (detour.more_minutes < 0 ? less : more) += std::abs(detour.more_minutes);
    }
    std::vector<std::string> words;
    if (more > 0) words.push_back(format_minutes(more) + " more");
    if (less > 0) words.push_back(format_minutes(less) + " less");
    return join(words, ", ");
}

std::string unadvised_words(const Review& review) {
    const auto count = std::count_if(review.steps.begin(), review.steps.end(), [](const ReviewStep& step) {
        const job::Body& body = step.event.body;
        return (std::holds_alternative<job::Reading>(body) || std::holds_alternative<job::Seen>(body)) &&
               step.heed == advice::Heed::NoAdvice;
    });
    const char* plural = count == 1 ? "" : "s";
    return count == 0
               ? ""
               : fmt::format("{} reading{} or look{} without asking for advice.", count, plural, plural);
}

std::string expected_words(const ReviewedMinutes& minutes) {
    if (minutes.first_advice == 0) return "no reading or look was ever advised";
    return fmt::format(
        "{} from record {} to the find, refitting included; {} at worst; {} had been spent before",
        format_minutes(minutes.expected), minutes.first_advice, format_minutes(minutes.worst),
        format_minutes(minutes.before_advice));
}

std::string to_find_words(const ReviewedMinutes& minutes) {
    if (minutes.first_advice == 0) return "";
    return minutes.to_find ? format_minutes(*minutes.to_find) + " from there to the find"
                           : "the find is not in the log";
}

std::string pauses_words(const ReviewedMinutes& minutes) {
    if (minutes.away <= 0 && minutes.pauses == 0) return "";
    return fmt::format("{} away ({})", format_minutes(minutes.away), counted(minutes.pauses, "pause"));
}

std::string by_hand_words(const ReviewedMinutes& minutes) {
    if (minutes.entered_by_hand == 0) return "";
    return counted(minutes.entered_by_hand, "record") + " with minutes entered in place of the clock's";
}

std::string work_words(const std::vector<advice::Spent>& all) {
    std::vector<std::string> words;
    words.reserve(all.size());
    for (const advice::Spent& spent : all)
        words.push_back(fmt::format("{} {}", word(spent.work), format_minutes(spent.minutes)));
    return join(words, ", ");
}

std::string log_words(const advice::LogState& log) {
    std::string text = counted(log.records, "record");
    if (log.bytes > 0) text += fmt::format(", {} bytes", log.bytes);
    if (!log.checksum.empty())
        text += fmt::format(", the chain of checksums holds and ends in {}", log.checksum);
    if (log.torn_bytes > 0)
        text += fmt::format("; behind it {} bytes of a record cut short, never acknowledged and left out",
                            log.torn_bytes);
    if (log.line_end_missing) text += "; the last record lacks only its line end";
    return text;
}

std::string harness_words(const Review& review) {
    const advice::LogState& log = review.log;
    return fmt::format(
        "{}, SHA-256 {}{}; opened by version {}", review.harness_file, log.harness_sha256,
        log.harness_matches ? ", which the text in the job has" : ", BUT THE TEXT IN THE JOB HAS ANOTHER",
        log.program_version.empty() ? "not stated" : log.program_version);
}

}  // namespace halfsplit::report
