// What a lead reads first: vehicle, complaint, cause, correction, minutes, and whether it is finished.
#include "report/review_summary.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/review_sections.hpp"
#include "report/review_sentences.hpp"
#include "report/review_words.hpp"

#include <algorithm>

namespace halfsplit::report {

using advice::Proof;
using advice::Review;
using advice::ReviewedRepair;

namespace {

constexpr std::size_t summary_label = 12;

std::string cause_of_words(const ReviewedRepair& repair) {
    std::string text = repair.fault.empty() ? in_words(advice::Named{repair.repair.part, repair.part_name}) +
                                                  ": nothing in the log was against it"
                                            : fmt::format("{}: {} just before the repair",
                                                          repair.fault_in_words, chance_words(repair));
    if (repair.seen_faulty.empty()) return text + "; nobody had seen it";
    const advice::Look& look = repair.seen_faulty.back();
    return text +
           fmt::format("; seen (record {}){}", look.sequence, look.what.empty() ? "" : ": " + look.what);
}

}  // namespace

std::string vehicle_words(const Review& review) {
    std::vector<std::string> words;
    for (const std::string& text : {review.vehicle, review.title, review.network_name}) {
        if (!text.empty()) words.push_back(text);
    }
    return words.empty() ? review.network : join(words, "; ");
}

std::string complaint_words(const Review& review) {
    if (!review.has_intake || review.intake.complaint.empty()) return "not stated";
    std::string text = review.intake.complaint;
    if (!review.intake.conditions.empty()) text += "; when: " + join_words(review.intake.conditions);
    return text;
}

std::string before_words(const Review& review) {
    std::vector<std::string> words;
    if (!review.intake.recent_work.empty()) words.push_back("recent work: " + review.intake.recent_work);
    if (!review.intake.replaced.empty())
        words.push_back("replaced before: " + join_words(review.intake.replaced));
    return join(words, "; ");
}

std::string cause_words(const Review& review) {
    std::vector<std::string> causes;
    for (const ReviewedRepair& repair : review.repairs) {
        if (repair.cause) causes.push_back(cause_of_words(repair));
    }
    if (!causes.empty()) return join(causes, "; and ");
    if (!review.open.faulty_not_repaired.empty())
        return fmt::format("{} seen faulty, not repaired", listed_words(review.open.faulty_not_repaired));
    return "not established" +
           (review.open.suspects.empty() ? "" : "; suspected: " + outlook_words(review.open.outlook));
}

std::string correction_words(const Review& review) {
    std::vector<std::string> repairs;
    for (const ReviewedRepair& repair : review.repairs) {
        repairs.push_back(
            fmt::format("{} (record {}): {}", bare(repair.in_words), repair.sequence, proof_words(repair)));
    }
    return repairs.empty() ? "none" : join(repairs, "; then ");
}

std::string hunt_words(const Review& review) {
    const advice::ReviewedMinutes& minutes = review.minutes;
    if (minutes.first_advice == 0) return "";
    std::string text = fmt::format("to the find {} expected, {} at worst", format_minutes(minutes.expected),
                                   format_minutes(minutes.worst));
    if (minutes.to_find) text += fmt::format(", {} spent", format_minutes(*minutes.to_find));
    return text;
}

std::string minutes_words(const Review& review) {
    const advice::ReviewedMinutes& minutes = review.minutes;
    std::string text = minutes_both_ways(minutes.spent) + " to bill";
    if (minutes.away > 0) text += fmt::format(", pauses left out ({})", format_minutes(minutes.away));
    const std::string hunt = hunt_words(review);
    return hunt.empty() ? text : text + "; " + hunt;
}

std::string status_words(const Review& review) {
    if (!review.open.closed) return review.open.paused ? "NOT FINISHED: paused" : "NOT FINISHED: not closed";
    if (!whole(review)) return "CLOSED, BUT NOT WHOLE";
    return review.repairs.empty() ? "closed, nothing was repaired, everything back"
                                  : "closed, repair proven, everything back";
}

std::string job_words(const Review& review) {
    return fmt::format("{} to {}, harness file {}", format_time(review.opened), format_time(review.last),
                       review.harness_file);
}

void add_summary(const Review& review, Page& page) {
    page.labelled("vehicle", vehicle_words(review), 0, summary_label);
    page.labelled("complaint", complaint_words(review), 0, summary_label);
    page.labelled("before", before_words(review), 0, summary_label);
    page.labelled("cause", cause_words(review), 0, summary_label);
    page.labelled("correction", correction_words(review), 0, summary_label);
    page.labelled("minutes", minutes_words(review), 0, summary_label);
    page.labelled("status", status_words(review), 0, summary_label);
    page.labelled("fault", fault_words(review.fault), 0, summary_label);
    page.labelled("to do", join(review.to_do, "; "), 0, summary_label);
    page.labelled("job", job_words(review), 0, summary_label);
    for (const std::string& notice : review.notices) page.labelled("NOTE", notice, 0, summary_label);
}

}  // namespace halfsplit::report
