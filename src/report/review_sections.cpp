#include "report/review_sections.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/review_sentences.hpp"
#include "report/review_words.hpp"

namespace halfsplit::report {

using advice::Contradiction;
using advice::Detour;
using advice::Proof;
using advice::Review;
using advice::ReviewedRepair;
using advice::ReviewStep;

namespace {

constexpr std::size_t section_indent = 4;
constexpr std::size_t section_label = 13;

void add_label(Page& page, std::string_view label, const std::string& text) {
    page.labelled(label, text, section_indent, section_label);
}

// An entry that begins with the number of its record.
void add_numbered(Page& page, job::Sequence sequence, const std::string& text) {
    page.labelled(fmt::format("{}", sequence), text, 0, section_indent);
}

}  // namespace

void add_proofs(const Review& review, Page& page) {
    page.heading("FAULT AND REPAIR");
    if (review.repairs.empty()) page.paragraph("Nothing was repaired.", section_indent);
    for (const ReviewedRepair& repair : review.repairs) {
        add_numbered(page, repair.sequence, repair.in_words);
        add_label(page, "fault seen", seen_words(repair));
        add_label(page, "fault read", read_words(repair));
        add_label(page, "proof", proof_in_full(repair));
        add_label(page, "looking back", hindsight_words(repair));
        if (reseated_only(repair)) add_label(page, "CARE", reseat_caution);
    }
}

void add_detours(const Review& review, Page& page) {
    page.heading("DETOURS FROM THE ADVICE");
    for (const Detour& detour : review.detours) {
        add_numbered(page, detour.sequence,
                     detour_words(detour) + (detour.counts ? "" : "; undone, not summed"));
    }
    add_label(page, "of the hunt", detour_sum(review, Detour::Basis::Alternative));
    add_label(page, "of labour", detour_sum(review, Detour::Basis::Labour));
    if (review.detours.empty()) page.paragraph("None.", section_indent);
    if (const std::string words = unadvised_words(review); !words.empty())
        page.paragraph(words, section_indent);
}

void add_contradictions(const Review& review, Page& page) {
    page.heading("CONTRADICTIONS");
    for (const Contradiction& contradiction : review.contradictions) {
        const advice::Doubt& doubt = contradiction.doubt;
        add_numbered(page, doubt.sequence, contradiction_words(contradiction));
        if (!doubt.slips.empty()) add_label(page, "likeliest", doubt.slips.front());
        add_label(page, "in the end", settled_words(contradiction));
    }
    if (review.contradictions.empty()) page.paragraph("None.", section_indent);
}

void add_weak_evidence(const Review& review, Page& page) {
    page.heading("WEAK EVIDENCE RELIED ON");
    for (const advice::WeakEvidence& weak : review.weak)
        add_numbered(page, weak.sequence, bare(weak.in_words) + ": " + weakness_words(weak) + ".");
    if (review.weak.empty()) page.paragraph("None.", section_indent);
}

void add_repeats(const Review& review, Page& page) {
    page.heading("REPEATED OR POINTLESS");
    bool any = false;
    for (const ReviewStep& step : review.steps) {
        if (step.repeat_of == 0 && !step.pointless) continue;
        any = true;
        add_numbered(page, step.sequence, fmt::format("{}: {}.", bare(step.in_words), repeat_words(step)));
    }
    if (!any) page.paragraph("None.", section_indent);
}

void add_open_ends(const Review& review, Page& page) {
    const advice::OpenEnds& open = review.open;
    page.heading("STILL OPEN");
    std::vector<std::string> nothing;
    const auto add = [&](std::string_view label, const std::string& text, std::string_view closed) {
        if (text.empty()) {
            nothing.emplace_back(closed);
        } else {
            add_label(page, label, text);
        }
    };
    if (!open.closed) add_label(page, "job", open.paused ? "paused, not closed" : "not closed");
    if (!review.repairs.empty() && review.proof != Proof::Cured)
        add_label(page, "proof",
                  fmt::format("of the repair in record {}: {}", review.repairs.back().sequence,
                              proof_in_full(review.repairs.back())));
    add_label(page, "to repair", listed_words(open.faulty_not_repaired));
    add("covers off", listed_words(open.covers_off), "No cover is off.");
    add("unplugged", listed_words(open.parts_apart), "Nothing is unplugged.");
    if (!open.suspects.empty()) {
        add_label(page, "suspected",
                  outlook_words(open.outlook) +
                      (open.outlook.two_faults ? "; two faults at once are weighed too" : ""));
        for (const advice::SuspectView& suspect : open.suspects)
            add_label(page, "", fmt::format("{} {}", format_chance(suspect.probability), suspect.in_words));
    }
    add_label(page, "advised next", open.advised);
    if (!nothing.empty()) {
        page.paragraph(join(nothing, " "), section_indent);
    }
}

void add_minutes(const Review& review, Page& page) {
    const advice::ReviewedMinutes& minutes = review.minutes;
    page.heading("MINUTES");
    add_label(page, "to bill", minutes_both_ways(minutes.spent));
    add_label(page, "of that", work_words(minutes.by_work));
    add_label(page, "left out", pauses_words(minutes));
    add_label(page, "by hand", by_hand_words(minutes));
    add_label(page, "expected", expected_words(minutes));
    add_label(page, "spent", to_find_words(minutes));
    for (const std::string& sentence : review.assumed) add_label(page, "assumed", sentence);
}

void add_log(const Review& review, Page& page) {
    page.heading("LOG");
    add_label(page, "file", log_words(review.log));
    add_label(page, "harness", harness_words(review));
}

}  // namespace halfsplit::report
