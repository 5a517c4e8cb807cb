#include "halfsplit/report/review.hpp"

#include "report/html.hpp"
#include "report/review_page.hpp"
#include "report/review_style.hpp"
#include "report/review_summary.hpp"

#include <array>
#include <utility>

namespace halfsplit::report {

namespace {

std::string links_to_parts() {
    constexpr std::array<std::pair<const char*, const char*>, 10> sections{{{"story", "Story"},
                                                                            {"minutes", "Minutes"},
                                                                            {"suspects", "Suspects"},
                                                                            {"steps", "Steps"},
                                                                            {"detours", "Detours"},
                                                                            {"doubts", "Doubts"},
                                                                            {"proofs", "Proofs"},
                                                                            {"open", "Still open"},
                                                                            {"assumed", "Assumed"},
                                                                            {"log", "Log"}}};
    std::string html = "<nav aria-label=\"Parts of this page\"><p>";
    for (const auto& [anchor, name] : sections) {
        if (anchor != sections.front().first) html += " &middot; ";
        html += std::string("<a href=\"#") + anchor + "\">" + name + "</a>";
    }
    return html + "</p></nav>\n";
}

std::size_t all_but(std::size_t most, std::size_t count) {
    return count > most ? count - most : 0;
}

}  // namespace

std::string page_section(std::string_view anchor, std::string_view heading, const std::string& content) {
    std::string html = "<section id=\"";
    html.append(anchor).append("\">\n");
    return html + element("h2", heading) + "\n" + content + "</section>\n";
}

std::string linked(const ReviewPage& page, std::string_view tag, std::string_view words,
                   std::string_view attributes) {
    std::string html = "<";
    html.append(tag);
    if (!attributes.empty()) html.append(" ").append(attributes);
    return html.append(">").append(page.links.text(words)).append("</").append(tag).append(">\n");
}

std::string term(const ReviewPage& page, std::string_view name, const std::string& words) {
    return words.empty() ? "" : element("dt", name) + linked(page, "dd", words);
}

std::string review_html(const advice::Review& review, const harness::Harness& harness,
                        harness::Index network) {
    ReviewPage page{.review = review, .links = {}, .first_step = all_but(most_steps, review.steps.size())};
    for (std::size_t i = page.first_step; i < review.steps.size(); ++i)
        page.links.add(review.steps[i].sequence);
    Pictures pictures(review, harness, network);
    std::string body =
        pictures.symbol() + "<header>\n" + element("h1", vehicle_words(review)) + "\n" +
        element("p", "Review of a job: " + job_words(review) + ". Times are UTC.", "class=\"quiet\"") +
        "\n</header>\n<main>\n";
    body += page_verdict(page) + links_to_parts() + page_story(page) + page_minutes(page) +
            page_outlooks(page) + page_steps(page, pictures) + page_detours(page) + page_doubts(page) +
            page_proofs(page) + page_open_ends(page) + page_assumed(page) + page_log(page);
    return html_document("Review: " + vehicle_words(review), review_style, body + "</main>\n");
}

}  // namespace halfsplit::report
