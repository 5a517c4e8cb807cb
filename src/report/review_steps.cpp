// Every step of a job, by record number.
#include <fmt/format.h>

#include "report/review_sections.hpp"
#include "report/step_facts.hpp"

namespace halfsplit::report {

void add_steps(const advice::Review& review, Page& page) {
    constexpr std::size_t step_indent = 4, step_label = 9;
    page.heading("STEPS, by record (times are UTC; minutes are those since the step before)");
    StepFacts facts(review);
    std::string day_before;
    for (const advice::ReviewStep& step : review.steps) {
        const std::string time = format_time(step.time);
        const std::string day = time.substr(0, 10);
        if (day != day_before) page.paragraph(day);
        day_before = day;
        page.labelled(fmt::format("{}", step.sequence),
                      fmt::format("{} {}", time.substr(11, 5), step_title(step)), 0, step_indent);
        page.paragraph(step.in_words, step_indent);
        for (const Fact& fact : facts.of(step)) page.labelled(fact.label, fact.text, step_indent, step_label);
    }
    if (review.steps.empty()) page.paragraph("none", step_indent);
}

}  // namespace halfsplit::report
