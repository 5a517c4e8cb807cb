// Every step of a job on a review's page, with a picture where what is suspected may have changed.
#include "halfsplit/report/review.hpp"

#include <fmt/format.h>

#include "report/html.hpp"
#include "report/review_page.hpp"
#include "report/step_facts.hpp"

#include <algorithm>

namespace halfsplit::report {

using advice::ReviewStep;

namespace {

class StepList {
  public:
    StepList(const ReviewPage& page, Pictures& pictures)
        : page_(page), pictures_(pictures), facts_(page.review) {}

    std::string html() {
        draw();
        for (std::size_t i = 0; i < steps().size(); ++i) {
            const std::vector<Fact> facts = facts_.of(steps()[i]);
            if (i < page_.first_step) continue;
            add_day(steps()[i]);
            add(i, facts);
        }
        return std::move(html_);
    }
    bool all_drawn() const { return all_drawn_; }
    bool any_drawn() const {
        return std::any_of(drawn_.begin(), drawn_.end(), [](const std::string& svg) { return !svg.empty(); });
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
        if (!drawn_[at].empty()) html_ += "<figure>" + drawn_[at] + "</figure>\n";
        if (!facts.empty()) {
            html_ += "<dl class=\"facts\">\n";
            for (const Fact& fact : facts)
                html_ += element("dt", fact.label) + linked(page_, "dd", fact.text);
            html_ += "</dl>\n";
        }
        html_ += "</section>\n";
    }

    // The pictures of the newest steps, as far as there is room for them.
    void draw() {
        drawn_.resize(steps().size());
        for (std::size_t i = 0; i < steps().size(); ++i) {
            std::string picture = pictures_.after(i);
            if (i >= page_.first_step) drawn_[i] = std::move(picture);
        }
        std::size_t bytes = 0;
        for (std::size_t i = drawn_.size(); i-- > page_.first_step;) {
            bytes += drawn_[i].size();
            if (bytes <= most_picture_bytes) continue;
            all_drawn_ = all_drawn_ && drawn_[i].empty();
            drawn_[i].clear();
        }
    }

    // Its name says where it leads, for those who hear the links without what stands around them.
    static std::string link_to(const char* word, const ReviewStep& step) {
        return fmt::format(" <a href=\"#{}\" aria-label=\"{} to record {}\">{}</a>", anchor_of(step.sequence),
                           word, step.sequence, word);
    }

    // To the step before and the one after, for going through them one by one.
    std::string turn(std::size_t at) const {
        std::string links;
        if (at > page_.first_step) links += link_to("back", steps()[at - 1]);
        if (at + 1 < steps().size()) links += link_to("on", steps()[at + 1]);
        return links.empty() ? "" : "<span class=\"turn\">" + links + "</span>";
    }

    const ReviewPage& page_;
    Pictures& pictures_;
    StepFacts facts_;
    std::vector<std::string> drawn_;  // by step
    bool all_drawn_ = true;
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
    StepList list(page, pictures);
    const std::string steps = list.html();
    if (!list.all_drawn())
        html += element("p", "Pictures are drawn for the newest steps only.", "class=\"note\"") + "\n";
    if (list.any_drawn())
        html +=
            element("p",
                    "In the drawings: ? and a frame is suspected, with its chance; ! and a frame was found "
                    "faulty; a bar beneath is good; \u25b2 probe, \u25b3 clip. A dashed line goes on in the "
                    "next row.",
                    "class=\"quiet\"") +
            "\n";
    if (page.review.steps.empty()) html += "<p>None.</p>\n";
    return page_section("steps", "Step by step", html + "<div class=\"list\">\n" + steps + "</div>\n");
}

}  // namespace halfsplit::report
