// Every step of a job, by record number.
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/review_sections.hpp"
#include "report/review_sentences.hpp"
#include "report/review_words.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::report {

using advice::Heed;
using advice::Review;
using advice::ReviewStep;

namespace {

constexpr std::size_t step_indent = 4;
constexpr std::size_t step_label = 9;

class Steps {
  public:
    Steps(const Review& review, Page& page) : review_(review), page_(page) {}

    void add(const ReviewStep& step) {
        const std::string time = format_time(step.time);
        const std::string day = time.substr(0, 10);
        if (day != day_) page_.paragraph(day);
        day_ = day;
        page_.labelled(fmt::format("{}", step.sequence),
                       fmt::format("{} {}{}", time.substr(11, 5),
                                   step.implied ? "follows" : job::kind(step.event), minutes(step)),
                       0, step_indent);
        page_.paragraph(step.in_words, step_indent);
        add_corrections(step);
        if (step.work.size() > 1) add_label("minutes", work_words(step.work));
        if (has_state(step))
            add_label("state",
                      state_words(step.state, std::holds_alternative<job::Reading>(step.event.body) ||
                                                  std::holds_alternative<job::Distance>(step.event.body)));
        add_what_it_told(step);
        add_heed(step);
    }

  private:
    void add_label(std::string_view label, const std::string& text) {
        page_.labelled(label, text, step_indent, step_label);
    }

    static std::string minutes(const ReviewStep& step) {
        if (std::abs(step.minutes) < 0.01) return "";
        return fmt::format(", {}{}", step.minutes < 0 ? "takes back " : "",
                           format_minutes(std::abs(step.minutes)));
    }

    // What was read or seen depends on it.
    static bool has_state(const ReviewStep& step) {
        const job::Body& body = step.event.body;
        return std::holds_alternative<job::Reading>(body) || std::holds_alternative<job::Distance>(body) ||
               std::holds_alternative<job::Seen>(body) || std::holds_alternative<job::Answers>(body) ||
               std::holds_alternative<job::Verified>(body);
    }

    void add_corrections(const ReviewStep& step) {
        if (!step.counts) {
            const std::string by = correction_words(step.undone_by, step.amended_by);
            add_label("VOID", by.empty() ? "does not count" : by + "; does not count");
        } else if (step.amended_by != 0) {
            add_label("AMENDED", fmt::format("by record {}: {}", step.amended_by, step.amended_to));
        }
    }

    void add_what_it_told(const ReviewStep& step) {
        if (step.told) {
            add_label("told", told_words(*step.told));
        } else if (std::holds_alternative<job::Reading>(step.event.body)) {
            add_label("told", "nothing that can be weighed");
        }
        add_outlook(step);
        if (step.repeat_of != 0) {
            const bool advised = step.heed == Heed::Followed;
            add_label("REPEAT", fmt::format("of record {}, in the same state{}", step.repeat_of,
                                            advised ? "; a re-check, as advised" : ""));
        }
        for (const advice::Contradiction& contradiction : review_.contradictions) {
            if (contradiction.doubt.sequence != step.sequence) continue;
            add_label("DOUBT", contradiction.since == step.sequence
                                   ? "did not fit what had been read before"
                                   : fmt::format("did not fit from record {} on", contradiction.since));
        }
    }

    void add_outlook(const ReviewStep& step) {
        if (!step.outlook) return;
        const std::string words = outlook_words(*step.outlook);
        const bool news = step.outlook->two_faults && !two_faults_;
        two_faults_ = step.outlook->two_faults;
        add_label("leaves", (words == outlook_ ? "the same as before"
                                                : words + "; doubt " + bits_words(step.outlook->bits)) +
                                (news ? "; from here on two faults at once are weighed too" : ""));
        outlook_ = words;
    }

    void add_heed(const ReviewStep& step) {
        if (step.heed == Heed::Followed)
            add_label("advice", fmt::format("as advised (record {})", step.advice));
        if (step.heed == Heed::OtherStep)
            add_label("advice", fmt::format("was another step: {} (record {})", step.advised, step.advice));
        for (const advice::Detour& detour : review_.detours) {
            if (detour.sequence == step.sequence) add_label("DETOUR", detour_words(detour));
        }
    }

    const Review& review_;
    Page& page_;
    std::string day_, outlook_;
    bool two_faults_ = false;
};

}  // namespace

void add_steps(const Review& review, Page& page) {
    page.heading("STEPS, by record (times are UTC; minutes are those since the step before)");
    Steps steps(review, page);
    for (const ReviewStep& step : review.steps) steps.add(step);
    if (review.steps.empty()) page.paragraph("none", step_indent);
}

}  // namespace halfsplit::report
