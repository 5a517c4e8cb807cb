// The lower parts of a review's page: detours, doubts, proofs, what is still open, assumptions, the log.
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/html.hpp"
#include "report/review_page.hpp"
#include "report/review_sentences.hpp"
#include "report/review_words.hpp"

#include <algorithm>

namespace halfsplit::report {

using advice::Review;

namespace {

std::string record_item(const ReviewPage& page, job::Sequence sequence, const std::string& words) {
    return "<li>" + page.links.number(sequence) + ": " + page.links.text(words) + "</li>\n";
}

// A heading and a list; "None." where it is empty.
std::string titled_list(std::string_view heading, const std::string& items) {
    return element("h3", heading) + "\n" + (items.empty() ? "<p>None.</p>\n" : "<ul>\n" + items + "</ul>\n");
}

std::string contradiction_list(const ReviewPage& page) {
    std::string items;
    for (const advice::Contradiction& contradiction : page.review.contradictions) {
        std::string words = contradiction_words(contradiction);
        if (!contradiction.doubt.slips.empty())
            words += " Likeliest: " + contradiction.doubt.slips.front() + ".";
        items += record_item(page, contradiction.doubt.sequence,
                             words + " In the end: " + settled_words(contradiction) + ".");
    }
    return titled_list("Contradictions", items);
}

std::string weak_list(const ReviewPage& page) {
    std::string items;
    for (const advice::WeakEvidence& weak : page.review.weak)
        items += record_item(page, weak.sequence, bare(weak.in_words) + ": " + weakness_words(weak) + ".");
    return titled_list("Weak evidence relied on", items);
}

std::string repeat_list(const ReviewPage& page) {
    std::string items;
    for (std::size_t i = page.first_step; i < page.review.steps.size(); ++i) {
        const advice::ReviewStep& step = page.review.steps[i];
        if (step.repeat_of != 0 || step.pointless)
            items += record_item(page, step.sequence, bare(step.in_words) + ": " + repeat_words(step) + ".");
    }
    return titled_list("Repeated or pointless", items);
}

std::string repair_terms(const ReviewPage& page, const advice::ReviewedRepair& repair) {
    std::string html =
        "<h3>" + page.links.number(repair.sequence) + ": " + shown(bare(repair.in_words)) + "</h3>\n<dl>\n";
    html += term(page, "Fault seen", seen_words(repair)) + term(page, "Fault read", read_words(repair)) +
            term(page, "Proof of the repair", proof_in_full(repair)) +
            term(page, "Looking back", hindsight_words(repair));
    if (reseated_only(repair)) html += term(page, "CARE", reseat_caution);
    return html + "</dl>\n";
}

std::string suspect_terms(const ReviewPage& page) {
    const advice::OpenEnds& open = page.review.open;
    if (open.suspects.empty()) return "";
    std::string html = element("dt", "Suspected") + linked(page, "dd", outlook_words(open.outlook));
    for (const advice::SuspectView& suspect : open.suspects)
        html += element("dd", format_chance(suspect.probability) + " " + suspect.in_words);
    if (open.outlook.two_faults) html += element("dd", "Two faults at once are weighed too.");
    return html;
}

}  // namespace

std::string page_detours(const ReviewPage& page) {
    const Review& review = page.review;
    std::string items;
    for (const advice::Detour& detour : review.detours)
        items += record_item(page, detour.sequence,
                             detour_words(detour) + (detour.counts ? "" : "; undone, not summed"));
    std::string html = items.empty() ? "<p>None.</p>\n" : "<ul>\n" + items + "</ul>\n";
    const std::string sums =
        term(page, "Of the hunt", detour_sum(review, advice::Detour::Basis::Alternative)) +
        term(page, "Of labour", detour_sum(review, advice::Detour::Basis::Labour));
    if (!sums.empty()) html += "<dl>\n" + sums + "</dl>\n";
    if (const std::string words = unadvised_words(review); !words.empty()) html += element("p", words) + "\n";
    return page_section("detours", "Detours from the advice, and what they cost", html);
}

std::string page_doubts(const ReviewPage& page) {
    return page_section("doubts", "Doubtful readings",
                        contradiction_list(page) + weak_list(page) + repeat_list(page));
}

std::string page_proofs(const ReviewPage& page) {
    std::string html;
    for (const advice::ReviewedRepair& each : page.review.repairs) html += repair_terms(page, each);
    return page_section("proofs", "Proof of the fault and of the repair",
                        html.empty() ? "<p>Nothing was repaired.</p>\n" : html);
}

std::string page_open_ends(const ReviewPage& page) {
    const advice::OpenEnds& open = page.review.open;
    const auto or_none = [](const std::string& words) { return words.empty() ? "none" : words; };
    return page_section(
        "open", "Still open, still unplugged",
        "<dl>\n" + term(page, "Covers off", or_none(listed_words(open.covers_off))) +
            term(page, "Unplugged", or_none(listed_words(open.parts_apart))) +
            term(page, "Seen faulty, not repaired", or_none(listed_words(open.faulty_not_repaired))) +
            suspect_terms(page) + term(page, "Advised last, not done", or_none(open.advised)) + "</dl>\n");
}

std::string page_assumed(const ReviewPage& page) {
    std::string items;
    for (const std::string& sentence : page.review.assumed) items += linked(page, "li", sentence);
    return page_section("assumed", "Figures that are assumed",
                        items.empty() ? "<p>None.</p>\n" : "<ul>\n" + items + "</ul>\n");
}

std::string page_log(const ReviewPage& page) {
    return page_section("log", "The log",
                        "<dl>\n" + term(page, "File", log_words(page.review.log)) +
                            term(page, "Harness", harness_words(page.review)) + "</dl>\n");
}

}  // namespace halfsplit::report
