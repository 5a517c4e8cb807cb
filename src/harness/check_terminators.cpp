// How many terminators a bus has: for each set of options that this vehicle may have.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "harness/bus_rules.hpp"
#include "harness/reading.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace halfsplit::harness {

namespace {

// Unknowns beyond this many double the sets once more and are judged by the least and the most there can be.
constexpr std::size_t most_open = 10;

// An option, or a part that follows none, of which nobody knows whether it is fitted.
struct Open {
    Index option = none, part = none;
    bool operator==(const Open&) const = default;
};

class Sets {
  public:
    Sets(const Harness& harness, const std::vector<Index>& holders) : harness_(harness), holders_(holders) {
        for (const Index holder : holders) {
            const Open open = what_decides(holder);
            if (open == Open{}) continue;
            if (std::find(open_.begin(), open_.end(), open) == open_.end()) open_.push_back(open);
        }
    }

    std::size_t unknowns() const { return open_.size(); }

    // The parts that hold a terminator in one set: bit n set, the n-th unknown is not fitted.
    std::vector<std::string> fitted(std::size_t set) const {
        std::vector<std::string> ids;
        for (const Index holder : holders_) {
            const Open open = what_decides(holder);
            const auto at = std::find(open_.begin(), open_.end(), open);
            const bool with = at == open_.end() || ((set >> (at - open_.begin())) & 1U) == 0;
            const Part& part = harness_.parts[holder];
            if (at == open_.end() || with != (part.option != none && part.without_option))
                ids.push_back(part.id);
        }
        return ids;
    }

    // "with wheelchair lift, without tow bar"
    std::string in_words(std::size_t set) const {
        std::vector<std::string> words;
        for (std::size_t which = 0; which < open_.size(); ++which) {
            const Open& open = open_[which];
            const std::string& name =
                open.part != none ? harness_.parts[open.part].name : harness_.options[open.option].name;
            words.push_back((((set >> which) & 1U) == 0 ? "with " : "without ") + name);
        }
        return join(words, ", ");
    }

  private:
    Open what_decides(Index holder) const {
        const Part& part = harness_.parts[holder];
        if (part.fitted != Fitted::Unknown) return {};
        return part.option != none ? Open{part.option, none} : Open{none, holder};
    }

    const Harness& harness_;
    const std::vector<Index>& holders_;
    std::vector<Open> open_;
};

void say_count(Index network, const std::vector<std::string>& have, const std::string& when,
               const std::string& besides, Reading& reading) {
    const Network& it = reading.harness.networks[network];
    const std::string which = have.empty() ? "" : " (" + join_words(have) + ")";
    reading.findings.warning(
        "terminator-count", "/networks/" + std::to_string(network),
        {fmt::format("{} has {} terminator{} {}{}{}", it.id,
                     have.empty() ? "no" : std::to_string(have.size()), have.size() == 1 ? "" : "s", when,
                     which, besides),
         fmt::format("{}{}", it.terminators.value_or(2),
                     it.terminators ? ", as the file states" : ", one at each end (ISO 11898-2)"),
         "", "correct the modules' \"terminator\", or state \"terminators\" where this bus is different"});
}

// Too many unknowns to go through: wrong only where no set can be right.
void check_bounds(Index network, const std::vector<Index>& holders, std::size_t wanted, Reading& reading) {
    std::vector<std::string> certain, all;
    for (const Index holder : holders) {
        const Part& part = reading.harness.parts[holder];
        all.push_back(part.id);
        if (part.fitted == Fitted::Yes) certain.push_back(part.id);
    }
    if (all.size() < wanted) say_count(network, all, "with everything fitted", "", reading);
    if (certain.size() > wanted) say_count(network, certain, "with nothing fitted that may be", "", reading);
}

}  // namespace

void check_terminators(Index network, const std::vector<Index>& holders, bool ring, Reading& reading) {
    const Network& it = reading.harness.networks[network];
    if (!it.terminators && !wants_terminators(it)) return;
    const std::size_t wanted = it.terminators.value_or(2);
    const Sets sets(reading.harness, holders);
    if (sets.unknowns() > most_open) return check_bounds(network, holders, wanted, reading);
    std::size_t first = 0, wrong = 0;
    for (std::size_t set = 0; set < (std::size_t{1} << sets.unknowns()); ++set) {
        const std::size_t have = sets.fitted(set).size();
        const bool ring_without = have == 0 && ring && !it.terminators;  // a ring may do without ends
        if (have == wanted || ring_without) continue;
        if (wrong++ == 0) first = set;
    }
    if (wrong == 0) return;
    const std::string when = sets.unknowns() == 0 ? "on this vehicle" : sets.in_words(first);
    const std::string besides = wrong == 1 ? ""
                                           : "; " + counted(wrong - 1, "other set") + " of options " +
                                                 (wrong == 2 ? "is" : "are") + " wrong as well";
    say_count(network, sets.fitted(first), when, besides, reading);
}

}  // namespace halfsplit::harness
