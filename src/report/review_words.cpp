#include "report/review_words.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include <cmath>

namespace halfsplit::report {

using advice::Detour;
using advice::Proof;

std::string listed_words(const std::vector<advice::Named>& all) {
    std::vector<std::string> words;
    words.reserve(all.size());
    for (const advice::Named& named : all) words.push_back(in_words(named));
    return join_words(words);
}

std::string record_words(job::Sequence sequence) {
    return fmt::format("record {}", sequence);
}

std::string state_words(const job::CircuitState& state, bool electric) {
    std::vector<std::string> words;
    if (electric && state.battery_off) words.emplace_back("battery off");
    if (electric && !state.battery_off)
        words.emplace_back(state.bus_asleep ? "battery connected, bus asleep"
                                            : "battery connected, bus awake");
    if (!state.apart.empty()) words.push_back("apart: " + join_words(state.apart));
    if (state.repairs > 0)
        words.push_back(fmt::format("after {} repair{}", state.repairs, state.repairs == 1 ? "" : "s"));
    return join(words, "; ");
}

std::string told_words(const advice::Told& told) {
    if (told.bits >= 0.05) return fmt::format("{:.1f} bit", told.bits);
    if (told.bits <= -0.05) return fmt::format("less certain than before, by {:.1f} bit", -told.bits);
    if (told.moved >= advice::pointless_move)
        return fmt::format("no more certain than before; {} of the suspicion moved",
                           format_chance(told.moved));
    return told.bits >= advice::pointless_bits ? fmt::format("{:.2f} bit", told.bits) : "as good as nothing";
}

std::string bits_words(double bits) {
    return bits < 0.005 ? "none" : fmt::format("{:.{}f} bit", bits, bits < 0.95 ? 2 : 1);
}

std::string outlook_words(const advice::Outlook& outlook) {
    constexpr std::size_t most_leading = 3;
    std::vector<std::string> words;
    for (const advice::PartChance& part : outlook.leading) {
        if (words.size() == most_leading) break;
        words.push_back(fmt::format("{} {}", part.part, format_chance(part.probability)));
    }
    if (outlook.suspects > words.size())
        words.push_back(fmt::format("{} more", outlook.suspects - words.size()));
    std::string text = outlook.suspects == 0
                           ? "no part"
                           : fmt::format("{} part{}: {}", outlook.suspects, outlook.suspects == 1 ? "" : "s",
                                         join(words, ", "));
    if (outlook.nothing_wrong >= 0.01) text += "; nothing wrong " + format_chance(outlook.nothing_wrong);
    return text;
}

std::string detour_words(const Detour& detour) {
    const double minutes = std::abs(detour.more_minutes);
    const char* sign = detour.more_minutes < 0 ? "less" : "more";
    std::string text =
        fmt::format("{} instead of {} (advice in record {}): ", detour.done, detour.advised, detour.advice);
    switch (detour.basis) {
        case Detour::Basis::Alternative:
            text += minutes < 0.5
                        ? "as good by the advice's own figures"
                        : fmt::format("{} {} expected for the whole hunt, by the advice's own figures",
                                      format_minutes(minutes), sign);
            break;
        case Detour::Basis::Labour:
            text += minutes < 0.5 ? "the same labour for this step"
                                  : fmt::format("{} {} labour for this step", format_minutes(minutes), sign);
            break;
        case Detour::Basis::Unknown:
            text += "cost not known";
            break;
    }
    if (detour.found_it) text += "; it found the fault";
    return text;
}

std::string correction_words(job::Sequence undone_by, job::Sequence amended_by) {
    if (undone_by != 0) return "undone by " + record_words(undone_by);
    return amended_by != 0 ? "amended by " + record_words(amended_by) : "";
}

std::string chance_words(const advice::ReviewedRepair& repair) {
    const std::string fault = format_chance(repair.fault_chance);
    const std::string part = format_chance(repair.part_chance);
    return fault == part ? fault : fmt::format("{}, any fault of the part {},", fault, part);
}

std::string proof_words(const advice::ReviewedRepair& repair) {
    switch (repair.proof) {
        case Proof::None:
            return "not proven";
        case Proof::Partial:
            return fmt::format("not fully proven (record {})", repair.proof_sequence);
        case Proof::NotCured:
            return fmt::format("did not cure (record {})", repair.proof_sequence);
        case Proof::Cured:
            return fmt::format("cured (record {})", repair.proof_sequence);
    }
    return "";
}

std::string minutes_both_ways(double minutes) {
    const std::string text = format_minutes(minutes);
    return minutes < 59.5 ? text : fmt::format("{} ({:.0f} min)", text, minutes);
}

std::string bare(std::string sentence) {
    if (!sentence.empty() && sentence.back() == '.') sentence.pop_back();
    return sentence;
}

}  // namespace halfsplit::report
