#include "report/review_sections.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/review_words.hpp"

#include <algorithm>
#include <cmath>

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

std::string seen_words(const ReviewedRepair& repair) {
    std::vector<std::string> words;
    for (const advice::Look& look : repair.seen_faulty) {
        words.push_back(fmt::format("seen faulty (record {}){}", look.sequence,
                                    look.what.empty() ? "" : ": " + look.what));
    }
    return words.empty() ? "repaired on suspicion: nobody had seen it faulty" : join(words, "; ");
}

std::string read_words(const ReviewedRepair& repair) {
    if (repair.fault.empty()) return "the log held nothing against this part";
    return fmt::format("{}: {} just before the repair", repair.fault_in_words, chance_words(repair));
}

template <typename Value>
std::string tried(const std::optional<Value>& value, std::string_view yes, std::string_view no,
                  std::string_view untried) {
    return std::string(!value ? untried : *value ? yes : no);
}

std::string proof_in_full(const ReviewedRepair& repair) {
    if (!repair.verified) return proof_words(repair);
    const job::Verified& verified = *repair.verified;
    std::vector<std::string> words;
    words.push_back(verified.h_to_l_ohm ? "H to L " + format_ohm(*verified.h_to_l_ohm) : "H to L not read");
    words.push_back(
        tried(verified.all_answer, "all modules answer", "not all modules answer", "answers not scanned"));
    words.push_back(tried(verified.codes_clear, "codes clear", "codes stored again", "codes not scanned"));
    words.push_back(
        tried(verified.complaint_gone, "complaint gone", "complaint is back", "complaint not tried again"));
    return proof_words(repair) + ": " + join(words, ", ");
}

bool reseated_only(const ReviewedRepair& repair) {
    return repair.proof == Proof::Cured && repair.repair.action == job::RepairAction::Reseated;
}

std::string settled_words(const Contradiction& contradiction) {
    std::vector<std::string> words;
    const std::string corrected = correction_words(contradiction.undone_by, contradiction.amended_by);
    if (!corrected.empty()) words.push_back(corrected);
    if (contradiction.reread_by != 0)
        words.push_back(fmt::format("read again in record {}, which fits", contradiction.reread_by));
    if (unsettled(contradiction))
        words.push_back("STILL DOES NOT FIT: " + format_chance(*contradiction.at_end));
    if (words.empty()) words.emplace_back(contradiction.at_end ? "it fits" : "it no longer counts");
    return join(words, "; ");
}

// One kind of cost over the detours that count; what cost more and what cost less are not set off against
// each other.
void add_detour_sums(const Review& review, Detour::Basis basis, std::string_view label, Page& page) {
    double more = 0;
    double less = 0;
    for (const Detour& detour : review.detours) {
        if (!detour.counts || detour.basis != basis) continue;
        (detour.more_minutes < 0 ? less : more) += std::abs(detour.more_minutes);
    }
    std::vector<std::string> words;
    if (more > 0) words.push_back(format_minutes(more) + " more");
    if (less > 0) words.push_back(format_minutes(less) + " less");
    add_label(page, label, join(words, ", "));
}

std::size_t without_advice(const Review& review) {
    return static_cast<std::size_t>(
        std::count_if(review.steps.begin(), review.steps.end(), [](const ReviewStep& step) {
            const job::Body& body = step.event.body;
            return (std::holds_alternative<job::Reading>(body) || std::holds_alternative<job::Seen>(body)) &&
                   step.heed == advice::Heed::NoAdvice;
        }));
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
        add_label(page, "looking back",
                  format_chance(repair.in_hindsight) + " that this part had been at fault" +
                      (repair.cause || repair.proof == Proof::None ? "" : "; it may have been a good part"));
        if (reseated_only(repair))
            add_label(page, "CARE", "reseating alone may cure for a while only (common practice)");
    }
}

void add_detours(const Review& review, Page& page) {
    page.heading("DETOURS FROM THE ADVICE");
    for (const Detour& detour : review.detours) {
        add_numbered(page, detour.sequence,
                     detour_words(detour) + (detour.counts ? "" : "; undone, not summed"));
    }
    add_detour_sums(review, Detour::Basis::Alternative, "of the hunt", page);
    add_detour_sums(review, Detour::Basis::Labour, "of labour", page);
    if (review.detours.empty()) page.paragraph("None.", section_indent);
    if (const std::size_t count = without_advice(review); count > 0)
        page.paragraph(fmt::format("{} reading{} or look{} without asking for advice.", count,
                                   count == 1 ? "" : "s", count == 1 ? "" : "s"),
                       section_indent);
}

void add_contradictions(const Review& review, Page& page) {
    page.heading("CONTRADICTIONS");
    for (const Contradiction& contradiction : review.contradictions) {
        const advice::Doubt& doubt = contradiction.doubt;
        add_numbered(
            page, doubt.sequence,
            fmt::format("{} to {} showed {}; the rest of the log expects {}. Did not fit from record {} on; "
                        "chance of a slip or a wrong wire {}.",
                        doubt.red, doubt.black, doubt.shown, doubt.expected, contradiction.since,
                        format_chance(contradiction.chance_at_most)));
        if (!doubt.slips.empty()) add_label(page, "likeliest", doubt.slips.front());
        add_label(page, "in the end", settled_words(contradiction));
    }
    if (review.contradictions.empty()) page.paragraph("None.", section_indent);
}

void add_repeats(const Review& review, Page& page) {
    page.heading("REPEATED OR POINTLESS");
    bool any = false;
    for (const ReviewStep& step : review.steps) {
        if (step.repeat_of == 0 && !step.pointless) continue;
        any = true;
        std::vector<std::string> words;
        if (step.repeat_of != 0)
            words.push_back(fmt::format("repeats record {} in the same state", step.repeat_of));
        if (step.pointless) words.push_back("told as good as nothing");
        if (step.heed == advice::Heed::Followed) words.emplace_back("it was advised");
        if (!step.counts) words.emplace_back("undone");
        words.push_back(format_minutes(std::max(0.0, step.minutes)));
        add_numbered(page, step.sequence, fmt::format("{}: {}.", bare(step.in_words), join(words, "; ")));
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
    if (minutes.away > 0 || minutes.pauses > 0)
        add_label(page, "left out",
                  fmt::format("{} away ({} pause{})", format_minutes(minutes.away), minutes.pauses,
                              minutes.pauses == 1 ? "" : "s"));
    if (minutes.entered_by_hand > 0)
        add_label(page, "by hand",
                  fmt::format("{} record{} with minutes entered in place of the clock's",
                              minutes.entered_by_hand, minutes.entered_by_hand == 1 ? "" : "s"));
    if (minutes.first_advice == 0) {
        add_label(page, "expected", "no reading or look was ever advised");
    } else {
        add_label(
            page, "expected",
            fmt::format(
                "{} from record {} to the find, refitting included; {} at worst; {} had been spent before",
                format_minutes(minutes.expected), minutes.first_advice, format_minutes(minutes.worst),
                format_minutes(minutes.before_advice)));
        add_label(page, "spent",
                  minutes.to_find ? format_minutes(*minutes.to_find) + " from there to the find"
                                  : "the find is not in the log");
    }
    for (const std::string& sentence : review.assumed) add_label(page, "assumed", sentence);
}

}  // namespace halfsplit::report
