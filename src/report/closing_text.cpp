#include "halfsplit/report/closing_text.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include <array>

namespace halfsplit::report {

namespace {

std::string part_words(const harness::Harness& harness, const std::string& id) {
    const harness::Index part = find_part(harness, id);
    if (part == harness::none) return id;
    const harness::Part& own = harness.parts[part];
    std::string text = fmt::format("{} {}", word(own.kind), own.id);
    if (!own.name.empty()) text += fmt::format(" ({})", own.name);
    return text;
}

std::string with(const std::string& text, const std::string& more) {
    return more.empty() ? text : text + ": " + more;
}

std::string causes(const job::State& state, const harness::Harness& harness) {
    std::vector<std::string> found;
    for (const job::SeenPart& seen : state.seen) {
        if (seen.seen.verdict == job::Verdict::Faulty) {
            found.push_back(with(part_words(harness, seen.seen.part), seen.seen.what));
        }
    }
    return found.empty() ? "no part was seen to be faulty" : join(found, "; ");
}

std::string corrections(const job::State& state, const harness::Harness& harness) {
    constexpr std::array<std::string_view, 5> done{"reseated", "cleaned", "repaired", "replaced",
                                                   "bridge plug fitted"};
    std::vector<std::string> words;
    for (const job::DoneRepair& repair : state.repairs) {
        const std::string what = fmt::format("{} {}", part_words(harness, repair.repair.part),
                                             done[static_cast<std::size_t>(repair.repair.action)]);
        words.push_back(with(what, repair.repair.what));
    }
    return words.empty() ? "none" : join(words, "; ");
}

std::string told(const std::optional<bool>& answer, std::string_view yes, std::string_view no) {
    if (!answer) return "";
    return std::string(*answer ? yes : no);
}

std::string proof(const job::State& state) {
    if (!state.verified) return "not proven";
    const job::Verified& verified = *state.verified;
    std::vector<std::string> words;
    if (verified.h_to_l_ohm) words.push_back("H to L " + format_ohm(*verified.h_to_l_ohm));
    for (const std::string& text :
         {told(verified.all_answer, "all modules answer", "not all modules answer"),
          told(verified.codes_clear, "codes clear", "codes back"),
          told(verified.complaint_gone, "complaint gone", "complaint still there")}) {
        if (!text.empty()) words.push_back(text);
    }
    return words.empty() ? "not proven" : join(words, ", ");
}

}  // namespace

std::string closing_text(const job::State& state, const harness::Harness& harness, std::size_t columns) {
    std::string text;
    const auto line = [&](std::string_view label, const std::string& content) {
        text += wrap(fmt::format("{:<12}{}", label, content), columns, 12) + "\n";
    };
    line("complaint",
         state.intake && !state.intake->complaint.empty() ? state.intake->complaint : "not stated");
    line("cause", causes(state, harness));
    line("correction", corrections(state, harness));
    line("proof", proof(state));
    line("minutes", format_minutes(state.minutes_spent));
    line("plug in", state.apart.empty() ? "nothing is left unplugged" : join(state.apart, ", "));
    line("refit", state.covers_off.empty() ? "every cover is back on" : join(state.covers_off, ", "));
    return text;
}

}  // namespace halfsplit::report
