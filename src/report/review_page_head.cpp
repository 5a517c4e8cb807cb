// The top of a review's page: is the job whole, what to bill, what to do next; then the story.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "report/html.hpp"
#include "report/review_page.hpp"
#include "report/review_sentences.hpp"
#include "report/review_summary.hpp"
#include "report/review_words.hpp"

#include <algorithm>

namespace halfsplit::report {

using advice::FaultProof;
using advice::Proof;
using advice::Review;

namespace {

std::string check_row(const ReviewPage& page, std::string_view what, bool yes, const std::string& words) {
    return "<tr>" + element("th", what, "scope=\"row\"") + "<td>" +
           element("span", yes ? "YES" : "NO", yes ? "class=\"badge\"" : "class=\"badge no\"") + "</td>" +
           linked(page, "td", words) + "</tr>\n";
}

std::string repair_words(const Review& review) {
    if (review.repairs.empty()) return "nothing was repaired";
    const advice::ReviewedRepair& last = review.repairs.back();
    return in_words(advice::Named{last.repair.part, last.part_name}) + ": " + proof_in_full(last);
}

std::string back_words(const advice::OpenEnds& open) {
    std::vector<std::string> words;
    if (!open.covers_off.empty()) words.push_back(listed_words(open.covers_off) + " off");
    if (!open.parts_apart.empty()) words.push_back(listed_words(open.parts_apart) + " unplugged");
    return words.empty() ? "every cover is on, nothing is unplugged" : join(words, "; ");
}

std::string fit_words(const Review& review) {
    const auto count =
        std::count_if(review.contradictions.begin(), review.contradictions.end(), advice::unsettled);
    if (count > 0)
        return counted(static_cast<std::size_t>(count), "reading") + " against the rest of the log";
    return review.contradictions.empty() ? "none contradicts the rest" : "what contradicted was settled";
}

std::string check_table(const ReviewPage& page) {
    const Review& review = page.review;
    const bool all_fit =
        std::none_of(review.contradictions.begin(), review.contradictions.end(), advice::unsettled);
    const bool back = review.open.covers_off.empty() && review.open.parts_apart.empty();
    return "<table>\n" + element("caption", "What makes a job whole", "class=\"hidden\"") +
           "<thead class=\"hidden\"><tr><th scope=\"col\">Question</th><th scope=\"col\">Answer</th>"
           "<th scope=\"col\">By what</th></tr></thead>\n<tbody>\n" +
           check_row(page, "Fault proven", review.fault >= FaultProof::Read, fault_words(review.fault)) +
           check_row(page, "Repair proven", review.proof == Proof::Cured, repair_words(review)) +
           check_row(page, "Everything back", back, back_words(review.open)) +
           check_row(page, "Readings agree", all_fit, fit_words(review)) +
           check_row(page, "Job closed", review.open.closed,
                     review.open.closed   ? "closed"
                     : review.open.paused ? "paused, not closed"
                                          : "not closed") +
           "</tbody>\n</table>\n";
}

std::string to_do_list(const ReviewPage& page) {
    if (page.review.to_do.empty()) return "<p>Nothing is left to do.</p>\n";
    std::string html = "<ol>\n";
    for (const std::string& what : page.review.to_do) html += linked(page, "li", what);
    return html + "</ol>\n";
}

}  // namespace

std::string page_verdict(const ReviewPage& page) {
    const Review& review = page.review;
    const bool yes = whole(review);
    std::string html = "<section class=\"head\" id=\"verdict\">\n<h2>Is the job whole? " +
                       element("span", yes ? "YES" : "NO", yes ? "class=\"badge\"" : "class=\"badge no\"") +
                       "</h2>\n";
    for (const std::string& notice : review.notices)
        html += linked(page, "p", "NOTE: " + notice, "class=\"note\"");
    html += check_table(page);
    html += "<h3>To bill</h3>\n" + element("p", minutes_both_ways(review.minutes.spent), "class=\"bill\"") +
            "\n" + linked(page, "p", hunt_words(review), "class=\"quiet\"");
    return html + "<h3>To do next</h3>\n" + to_do_list(page) + "</section>\n";
}

std::string page_story(const ReviewPage& page) {
    const Review& review = page.review;
    return page_section("story", "Complaint, cause, correction",
                        "<dl>\n" + term(page, "Complaint", complaint_words(review)) +
                            term(page, "Before this visit", before_words(review)) +
                            term(page, "Cause", cause_words(review)) +
                            term(page, "Correction", correction_words(review)) +
                            term(page, "Status", status_words(review)) + "</dl>\n");
}

}  // namespace halfsplit::report
