// Every step of a job on a review's page, with a picture where what is suspected may have changed.
#include <fmt/format.h>

#include "report/html.hpp"
#include "report/review_page.hpp"
#include "report/step_facts.hpp"

namespace halfsplit::report {

using advice::ReviewStep;

namespace {

class StepList {
  public:
    StepList(const ReviewPage& page, Pictures& pictures)
        : page_(page), pictures_(pictures), facts_(page.review) {}

    std::string html() {
        for (std::size_t i = 0; i < steps().size(); ++i) {
            const std::vector<Fact> facts = facts_.of(steps()[i]);
            if (i < page_.first_step) continue;
            add_day(steps()[i]);
            add(i, facts);
        }
        return std::move(html_);
    }

  private:
    const std::vector<ReviewStep>& steps() const { return page_.review.steps; }

    void add_day(const ReviewStep& step) {
        const std::string day = format_time(step.time).substr(0, 10);
        if (day != day_) html_ += element("p", day, "class=\"day\"") + "\n";
        day_ = day;
    }

    void add(std::size_t at, const std::vector<Fact>& facts) {
        const ReviewStep& step = steps()[at];
        html_ += fmt::format("<section class=\"step{}\" id=\"{}\">\n", step.counts ? "" : " void",
                             anchor_of(step.sequence));
        html_ += "<h3>" +
                 shown(fmt::format("{} at {}: {}", step.sequence, format_time(step.time).substr(11, 5),
                                   step_title(step))) +
                 turn(at) + "</h3>\n" + element("p", step.in_words, "class=\"said\"") + "\n";
        if (at >= page_.first_picture) add_picture(at);
        if (!facts.empty()) {
            html_ += "<dl class=\"facts\">\n";
            for (const Fact& fact : facts)
                html_ += element("dt", fact.label) + linked(page_, "dd", fact.text);
            html_ += "</dl>\n";
        }
        html_ += "</section>\n";
    }

    void add_picture(std::size_t at) {
        const std::string picture = pictures_.after(at);
        if (!picture.empty()) html_ += "<figure>" + picture + "</figure>\n";
    }

    // To the step before and the one after, for going through them one by one.
    std::string turn(std::size_t at) const {
        std::string links;
        if (at > page_.first_step)
            links += fmt::format(" <a href=\"#{}\">back</a>", anchor_of(steps()[at - 1].sequence));
        if (at + 1 < steps().size())
            links += fmt::format(" <a href=\"#{}\">on</a>", anchor_of(steps()[at + 1].sequence));
        return links.empty() ? "" : "<span class=\"turn\">" + links + "</span>";
    }

    const ReviewPage& page_;
    Pictures& pictures_;
    StepFacts facts_;
    std::string html_, day_;
};

}  // namespace

std::string page_steps(const ReviewPage& page, Pictures& pictures) {
    std::string html;
    if (page.first_step > 0)
        html +=
            element("p",
                    fmt::format("The first {} steps are left out here; review as text or --json has them.",
                                page.first_step),
                    "class=\"note\"") +
            "\n";
    if (page.first_picture > page.first_step)
        html += element("p", "Pictures are drawn for the newest steps only.", "class=\"note\"") + "\n";
    if (page.review.steps.empty()) html += "<p>None.</p>\n";
    return page_section("steps", "Step by step",
                        html + "<div class=\"list\">\n" + StepList(page, pictures).html() + "</div>\n");
}

}  // namespace halfsplit::report
