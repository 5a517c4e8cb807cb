#include "halfsplit/report/aside_text.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/report/spoken.hpp"

#include <fmt/format.h>

#include "report/quote.hpp"
#include "report/reasons.hpp"
#include "report/step_sheet.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::report {

using advice::Recommendation;
using harness::Harness;
using harness::Index;

namespace {

// Entropy of the outcomes (Shannon 1948), in bits: as much as the step can tell.
double bits_of(const std::vector<advice::Forecast>& outcomes) {
    double bits = 0;
    for (const advice::Forecast& outcome : outcomes) {
        if (outcome.chance > 0) bits -= outcome.chance * std::log2(outcome.chance);
    }
    return bits;
}

std::string chances_in_words(const std::vector<advice::PartChance>& parts, std::size_t enough) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < std::min(enough, parts.size()); ++i)
        words.push_back(fmt::format("{} {}", parts[i].part, format_chance(parts[i].probability)));
    const std::size_t more = parts.size() - words.size();
    return join(words, ", ") + (more > 0 ? fmt::format(", {} more", more) : "");
}

bool is_off(const Harness& harness, Index cover, const job::State& state) {
    const auto& off = state.covers_off;
    return std::find(off.begin(), off.end(), harness.covers[cover].id) != off.end();
}

void add_access(const Harness& harness, const harness::Access& access, const job::State& state,
                std::string_view label, StepSheet& sheet) {
    if (access.place != harness::none)
        sheet.add(label, with_name(harness.places[access.place].id, harness.places[access.place].name));
    for (const Index cover : access.covers) {
        const harness::Cover& own = harness.covers[cover];
        sheet.add("behind", is_off(harness, cover, state)
                                ? own.name + ": off already"
                                : fmt::format("{}: {} off, {} on", own.name, format_minutes(own.off_minutes),
                                              format_minutes(own.on_minutes)));
    }
}

// The parts at the ends of a run, or those that the runs at a part lead to.
std::vector<std::string> neighbours(const Harness& harness, Index part) {
    std::vector<std::string> words;
    for (Index i = 0; i < harness.parts.size(); ++i) {
        const harness::Part& run = harness.parts[i];
        const auto& strand = run.strand[0] ? run.strand[0] : run.strand[1];
        if (!strand) continue;
        const Index from = harness.terminals[strand->from].part;
        const Index to = harness.terminals[strand->to].part;
        if (i == part) {
            words.push_back(
                fmt::format("{} to {}, {:g} m", harness.parts[from].id, harness.parts[to].id, run.length_m));
        } else if (from == part || to == part) {
            words.push_back(fmt::format("{} by {}, {:g} m", harness.parts[from == part ? to : from].id,
                                        run.id, run.length_m));
        }
    }
    return words;
}

}  // namespace

std::string why_text(const Recommendation& advice, const Screen& screen) {
    StepSheet sheet(screen);
    if (!is_hunting(advice)) {
        sheet.add("why", "it comes before any reading or look, or after the last.");
        return sheet.text();
    }
    sheet.add("why", fmt::format("of all there is to do, the least labour to {} begins with it; its outcomes "
                                 "tell {:.1f} bits",
                                 advice.aim.isolate ? "isolate the fault" : "find the fault",
                                 bits_of(advice.outcomes)));
    add_costs(advice, sheet);
    add_outcomes(advice, advice.outcomes.size(), sheet);
    add_alternatives(advice, sheet);
    add_turning_points(advice, advice.turning_points.size(), sheet);
    return sheet.text();
}

std::string others_text(const Recommendation& advice, const Screen& screen) {
    StepSheet sheet(screen);
    if (advice.alternatives.empty()) {
        sheet.add("or", "nothing else that the plan weighed comes near.");
        return sheet.text();
    }
    add_alternatives(advice, sheet);
    const advice::Alternative& first = advice.alternatives.front();
    sheet.add("so", first.action == advice::Action::Look
                        ? fmt::format("seen {} faulty, or sound", first.part)
                        : fmt::format("reading {} {} and what it shows", first.red, first.black));
    return sheet.text();
}

std::string supposed_text(const std::string& answer, const Recommendation& after, const Screen& screen) {
    StepSheet sheet(screen);
    sheet.add("if", answer + ", then:");
    if (!after.parts.empty())
        sheet.add("left", fmt::format("{}: {}", counted(after.parts.size(), "suspect"),
                                      chances_in_words(after.parts, 5)));
    if (after.nothing_wrong >= 0.01)
        sheet.add("", fmt::format("nothing wrong {}", format_chance(after.nothing_wrong)));
    if (is_hunting(after))
        sheet.add("", fmt::format("{} expected to {}", format_minutes(after.quote.expected_minutes),
                                  after.aim.isolate ? "isolation" : "the find"));
    for (const advice::Doubt& doubt : after.doubts)
        sheet.add("DOUBT", fmt::format("it would not fit record {}", doubt.sequence));
    sheet.add("then", spoken(after).substr(std::string_view("Next: ").size()));
    return sheet.text();
}

std::string where_text(const Harness& harness, Index part, const job::State& state, const Screen& screen) {
    StepSheet sheet(screen);
    const harness::Part& own = harness.parts[part];
    sheet.add("where", fmt::format("{} {}", word(own.kind), with_name(own.id, own.name)));
    add_access(harness, own.access, state, "at", sheet);
    for (std::size_t half = 0; half < own.half_access.size(); ++half) {
        const std::string label = half == 0 ? "half a" : "half b";
        sheet.add(label, own.half_name[half]);
        if (own.half_access[half]) add_access(harness, *own.half_access[half], state, label, sheet);
    }
    sheet.add(own.kind == harness::PartKind::Run ? "from" : "next", join(neighbours(harness, part), "; "));
    sheet.add("note", own.note);
    return sheet.text();
}

}  // namespace halfsplit::report
