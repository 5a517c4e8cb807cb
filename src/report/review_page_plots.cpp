// Minutes and suspects of a review's page: plots, with the same in words and figures beside them.
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/html.hpp"
#include "report/review_page.hpp"
#include "report/review_plots.hpp"
#include "report/review_sentences.hpp"
#include "report/review_words.hpp"

#include <algorithm>

namespace halfsplit::report {

using advice::Review;
using advice::ReviewStep;

namespace {

std::string timeline(const advice::ReviewedMinutes& minutes, const std::vector<Stretch>& all) {
    std::string html =
        "<table class=\"time\">\n" +
        element("caption",
                "When in the job each kind of work was done, in minutes to bill. Walking and opening by the "
                "figures of the harness file, as far as the minutes go; the rest is the work itself.") +
        "\n<thead><tr><th scope=\"col\">Work</th><th scope=\"col\">When</th>"
        "<th scope=\"col\" class=\"figure\">Sum</th></tr></thead>\n<tbody>\n";
    for (const advice::Spent& spent : minutes.by_work) {
        html += "<tr>" + element("th", word(spent.work), "scope=\"row\"") + "<td>" +
                work_row(all, spent.work, minutes.spent) + "</td>" +
                element("td", format_minutes(spent.minutes), "class=\"figure\"") + "</tr>\n";
    }
    return html + "</tbody>\n<tfoot><tr><th scope=\"row\">all</th><td>" + minutes_axis(minutes.spent) +
           "</td>" + element("td", format_minutes(minutes.spent), "class=\"figure\"") +
           "</tr></tfoot>\n</table>\n";
}

std::string advised_words(const ReviewStep& step) {
    switch (step.heed) {
        case advice::Heed::Followed:
            return "as taken";
        case advice::Heed::Detour:
        case advice::Heed::OtherStep:
            return step.advised;
        case advice::Heed::NoAdvice:
            break;
    }
    return "none";
}

std::string outlook_row(const ReviewPage& page, const ReviewStep& step) {
    const bool probing = std::holds_alternative<job::Reading>(step.event.body) ||
                         std::holds_alternative<job::Seen>(step.event.body);
    return "<tr><th scope=\"row\">" + page.links.number(step.sequence) + "</th>" +
           element("td", step.in_words) + element("td", probing ? advised_words(step) : "") +
           element("td", step.told ? told_words(*step.told) : "") +
           element("td", std::to_string(step.outlook->suspects), "class=\"figure\"") +
           element("td", fmt::format("{:.1f}", step.outlook->bits), "class=\"figure\"") + "</tr>\n";
}

std::string outlook_table(const ReviewPage& page) {
    std::string html =
        "<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"What each step told\">\n"
        "<table class=\"wide\">\n" +
        element("caption", "What each step told, and what it left.") +
        "\n<thead><tr><th scope=\"col\">Record</th><th scope=\"col\">Taken</th><th scope=\"col\">Advised</th>"
        "<th scope=\"col\">Told</th><th scope=\"col\" class=\"figure\">Suspects left</th>"
        "<th scope=\"col\" class=\"figure\">Doubt, bits</th></tr></thead>\n<tbody>\n";
    for (std::size_t i = page.first_step; i < page.review.steps.size(); ++i) {
        if (page.review.steps[i].outlook) html += outlook_row(page, page.review.steps[i]);
    }
    return html + "</tbody>\n</table>\n</div>\n";
}

}  // namespace

std::string page_minutes(const ReviewPage& page) {
    const advice::ReviewedMinutes& minutes = page.review.minutes;
    std::string html;
    if (minutes.spent > 0) html += timeline(minutes, stretches(page.review));
    return page_section("minutes", "Minutes",
                        html + "<dl>\n" + term(page, "To bill", minutes_both_ways(minutes.spent)) +
                            term(page, "Left out", pauses_words(minutes)) +
                            term(page, "By hand", by_hand_words(minutes)) +
                            term(page, "Expected", expected_words(minutes)) +
                            term(page, "Spent", to_find_words(minutes)) + "</dl>\n");
}

std::string page_outlooks(const ReviewPage& page) {
    const std::vector<PlottedOutlook> moments = outlooks(page.review);
    std::string html;
    if (moments.size() > most_bars)
        html += element("p", fmt::format("Of {} moments every so many is drawn.", moments.size())) + "\n";
    html += "<h3>Parts suspected (a chance of 1 % or more)</h3>\n" +
            outlook_plot(moments, Measure::Suspects) +
            "\n<h3>Doubt, in bits (0: certain; each bit is a halving)</h3>\n" +
            outlook_plot(moments, Measure::Bits) + "\n";
    html += element("p",
                    "Under each bar the record after which it stood so. At the start: " +
                        outlook_words(page.review.start) + ".",
                    "class=\"quiet\"") +
            "\n";
    return page_section("suspects", "What was suspected after each reading", html + outlook_table(page));
}

}  // namespace halfsplit::report
