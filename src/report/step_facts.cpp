#include "report/step_facts.hpp"

#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/review_sentences.hpp"
#include "report/review_words.hpp"

#include <cmath>

namespace halfsplit::report {

using advice::Heed;
using advice::ReviewStep;

namespace {

bool needs_leads(const ReviewStep& step) {
    return std::holds_alternative<job::Reading>(step.event.body) ||
           std::holds_alternative<job::Distance>(step.event.body);
}

// What was read or seen depends on it.
bool has_state(const ReviewStep& step) {
    const job::Body& body = step.event.body;
    return needs_leads(step) || std::holds_alternative<job::Seen>(body) ||
           std::holds_alternative<job::Answers>(body) || std::holds_alternative<job::Verified>(body);
}

}  // namespace

StepFacts::StepFacts(const advice::Review& review) {
    for (const advice::Contradiction& contradiction : review.contradictions)
        contradictions_[contradiction.doubt.sequence] = &contradiction;
    for (const advice::Detour& detour : review.detours) detours_[detour.sequence] = &detour;
}

std::vector<Fact> StepFacts::of(const ReviewStep& step) {
    facts_.clear();
    add_corrections(step);
    if (step.work.size() > 1) facts_.push_back({"minutes", work_words(step.work)});
    const std::string state = has_state(step) ? state_words(step.state, needs_leads(step)) : "";
    if (!state.empty()) facts_.push_back({"state", state});
    add_what_it_told(step);
    add_heed(step);
    return facts_;
}

void StepFacts::add_corrections(const ReviewStep& step) {
    if (!step.counts) {
        const std::string by = correction_words(step.undone_by, step.amended_by);
        facts_.push_back({"VOID", by.empty() ? "does not count" : by + "; does not count"});
    } else if (step.amended_by != 0) {
        facts_.push_back({"AMENDED", fmt::format("by record {}: {}", step.amended_by, step.amended_to)});
    }
}

void StepFacts::add_what_it_told(const ReviewStep& step) {
    if (step.told) {
        facts_.push_back({"told", told_words(*step.told)});
    } else if (std::holds_alternative<job::Reading>(step.event.body)) {
        facts_.push_back({"told", "nothing that can be weighed"});
    }
    add_outlook(step);
    if (step.repeat_of != 0) {
        const bool advised = step.heed == Heed::Followed;
        facts_.push_back({"REPEAT", fmt::format("of record {}, in the same state{}", step.repeat_of,
                                                advised ? "; a re-check, as advised" : "")});
    }
    const auto found = contradictions_.find(step.sequence);
    if (found == contradictions_.end()) return;
    const job::Sequence since = found->second->since;
    facts_.push_back({"DOUBT", since == step.sequence ? "did not fit what had been read before"
                                                      : fmt::format("did not fit from record {} on", since)});
}

void StepFacts::add_outlook(const ReviewStep& step) {
    if (!step.outlook) return;
    const std::string words = outlook_words(*step.outlook);
    const bool news = step.outlook->two_faults && !two_faults_;
    two_faults_ = step.outlook->two_faults;
    facts_.push_back({"leaves", (words == outlook_ ? "the same as before"
                                                   : words + "; doubt " + bits_words(step.outlook->bits)) +
                                    (news ? "; from here on two faults at once are weighed too" : "")});
    outlook_ = words;
}

void StepFacts::add_heed(const ReviewStep& step) {
    if (step.heed == Heed::Followed)
        facts_.push_back({"advice", fmt::format("as advised (record {})", step.advice)});
    if (step.heed == Heed::OtherStep)
        facts_.push_back(
            {"advice", fmt::format("was another step: {} (record {})", step.advised, step.advice)});
    const auto detour = detours_.find(step.sequence);
    if (detour != detours_.end()) facts_.push_back({"DETOUR", detour_words(*detour->second)});
}

std::string step_title(const ReviewStep& step) {
    std::string kind(step.implied ? "follows" : job::kind(step.event));
    if (std::abs(step.minutes) < 0.01) return kind;
    return fmt::format("{}, {}{}", kind, step.minutes < 0 ? "takes back " : "",
                       format_minutes(std::abs(step.minutes)));
}

}  // namespace halfsplit::report
