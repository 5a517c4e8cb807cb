#include "halfsplit/draft/signals.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <map>
#include <set>
#include <utility>

namespace halfsplit::draft {

namespace {

using Contrast = std::pair<std::string_view, std::string_view>;

// What tells the two lines of a pair apart in their names. Longer ones first.
constexpr std::array<Contrast, 4> contrasts{{{"HIGH", "LOW"}, {"PLUS", "MINUS"}, {"H", "L"}, {"+", "-"}}};

std::string in_capitals(std::string_view text) {
    std::string result(text);
    for (char& c : result) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return result;
}

// The name of the other line, if `name` could be that of line H: each place where a word of H stands, with
// the word of L in it.
std::vector<std::string> partners(const std::string& name) {
    std::vector<std::string> result;
    for (const auto& [high, low] : contrasts) {
        for (std::size_t at = name.find(high); at != std::string::npos; at = name.find(high, at + 1)) {
            std::string other = name;
            result.push_back(other.replace(at, high.size(), low));
        }
    }
    return result;
}

class Pairing {
  public:
    explicit Pairing(const std::vector<Signal>& all) {
        for (const Signal& signal : all) by_capitals_.emplace(in_capitals(signal.name), signal.name);
    }

    void by_names(const std::vector<Signal>& all) {
        for (const Signal& signal : all) {
            for (const std::string& partner : partners(in_capitals(signal.name))) {
                const auto found = by_capitals_.find(partner);
                if (found != by_capitals_.end()) add(signal.name, found->second);
            }
        }
    }

    // Two signals and no third in one twisted group.
    void by_groups(const Loom& loom) {
        std::map<std::string, std::set<std::string>> groups;
        for (const LoomWire& wire : loom.wires) {
            if (wire.twisted && !wire.group.empty() && !wire.signal.empty())
                groups[wire.group].insert(wire.signal);
        }
        for (const auto& [group, names] : groups) {
            if (names.size() == 2) add(*names.begin(), *names.rbegin());
        }
    }

    std::vector<std::array<std::string, 2>> pairs;

  private:
    void add(const std::string& high, const std::string& low) {
        if (high == low || !met_.insert(std::minmax(high, low)).second) return;
        pairs.push_back({high, low});
    }

    std::map<std::string, std::string> by_capitals_;
    std::set<std::pair<std::string, std::string>> met_;
};

std::string as_typed(const std::string& word) {
    return word.find_first_of(" '\"$&;()<>|*?\\") == std::string::npos ? word : '"' + word + '"';
}

}  // namespace

Signals signals(const Loom& loom) {
    Signals result;
    std::map<std::string, std::size_t> index;
    std::vector<std::set<std::size_t>> met;
    for (const LoomWire& wire : loom.wires) {
        if (!wire.unusable.empty()) continue;
        if (wire.signal.empty()) {
            ++result.nameless;
            continue;
        }
        const auto [entry, fresh] = index.try_emplace(wire.signal, result.all.size());
        if (fresh) {
            result.all.push_back({.name = wire.signal, .parts = {}});
            met.emplace_back();
        }
        Signal& signal = result.all[entry->second];
        ++signal.wires;
        for (const LoomEnd& end : wire.ends) {
            if (end.part != nowhere && met[entry->second].insert(end.part).second)
                signal.parts.push_back(loom.parts[end.part].id);
        }
    }
    std::stable_sort(result.all.begin(), result.all.end(), [](const Signal& a, const Signal& b) {
        return std::pair(b.wires, std::string_view(a.name)) < std::pair(a.wires, std::string_view(b.name));
    });
    Pairing pairing(result.all);
    pairing.by_names(result.all);
    pairing.by_groups(loom);
    result.pairs = std::move(pairing.pairs);
    return result;
}

std::string to_text(const Signals& signals, std::size_t columns) {
    std::string text = signals.all.empty() ? "No wire has a signal.\n" : "Signals, most wires first:\n";
    for (const Signal& signal : signals.all) {
        text += wrap(printable(fmt::format("  {}: {}, {}", signal.name, counted(signal.wires, "wire"),
                                           join(signal.parts, ", "))),
                     columns, 6) +
                '\n';
    }
    if (signals.nameless > 0)
        text += wrap(fmt::format("{} without a signal: choose it by its number.",
                                 counted(signals.nameless, "wire")),
                     columns) +
                '\n';
    if (!signals.pairs.empty()) text += "Likely pairs:\n";
    for (const auto& [high, low] : signals.pairs)
        text += fmt::format("  --network {}\n", printable(as_typed(fmt::format("{},{}", high, low))));
    const std::string example = signals.all.empty() ? "WIRE" : signals.all.front().name;
    return text +
           wrap("Choose one line with --network " + as_typed(example) + ", or a pair with --network ID=H,L.",
                columns) +
           '\n';
}

}  // namespace halfsplit::draft
