#include "halfsplit/advice/tip_names.hpp"

#include "halfsplit/base/finding.hpp"
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace halfsplit::advice {

using diagnosis::Contact;
using diagnosis::Tips;
using harness::Harness;
using harness::Index;
using harness::none;
using harness::PartKind;

namespace {

constexpr const char* tips_option = "--between";
constexpr const char* apart_option = "--apart";

struct Refusal {
    std::string id, option, message, expected, nearest, next_step;
};

[[noreturn]] void refuse(Refusal refusal) {
    Finding finding;
    finding.id = std::move(refusal.id);
    finding.location.file = std::move(refusal.option);
    finding.message = std::move(refusal.message);
    finding.expected = std::move(refusal.expected);
    finding.nearest = std::move(refusal.nearest);
    finding.next_step = std::move(refusal.next_step);
    throw InputError(finding);
}

std::vector<std::string> terminal_names(const Harness& harness) {
    std::vector<std::string> names;
    for (Index i = 0; i < harness.terminals.size(); ++i) names.push_back(terminal_name(harness, i));
    return names;
}

std::vector<std::string> point_names(const Harness& harness) {
    std::vector<std::string> names;
    for (Index i = 0; i < harness.points.size(); ++i) names.push_back(point_name(harness, i));
    return names;
}

// The name itself, or the only one that differs from it by case alone.
Index find(const std::vector<std::string>& names, const std::string& wanted) {
    const auto exact = std::find(names.begin(), names.end(), wanted);
    if (exact != names.end()) return static_cast<Index>(exact - names.begin());
    Index found = none;
    for (Index i = 0; i < names.size(); ++i) {
        if (lower(names[i]) != lower(wanted)) continue;
        if (found != none) return none;
        found = i;
    }
    return found;
}

// Those of a bus: of the part or half that was named, where there is one, else all and what else a lead can
// be on.
std::vector<std::string> terminals_meant(const Harness& harness, const std::string& name) {
    std::vector<std::string> all{"ground", "supply", "clip"}, of_the_half;
    const std::string half = lower(name.substr(0, name.find(':') + 1));
    for (Index i = 0; i < harness.terminals.size(); ++i) {
        if (harness.terminals[i].network == none) continue;
        all.push_back(terminal_name(harness, i));
        if (!half.empty() && lower(all.back()).rfind(half, 0) == 0) of_the_half.push_back(all.back());
    }
    return of_the_half.empty() ? all : of_the_half;
}

[[noreturn]] void refuse_tip(const Harness& harness, const std::string& name, bool alone) {
    std::vector<std::string> names = point_names(harness);
    if (!alone) names = terminals_meant(harness, name);
    const std::string nearest = nearest_name(name, names);
    refuse({"unknown-terminal", tips_option,
            fmt::format("no {} is named '{}'", alone ? "point" : "terminal", name),
            alone ? "a point, like X3.a:4/5, or two terminals"
                  : "two of: a terminal, like X3.a:4, ground, supply, clip",
            nearest, "expect --table lists all points of a bus"});
}

std::string bus_words(const Harness& harness, Index network) {
    return network == none ? "another circuit" : fmt::format("bus '{}'", harness.networks[network].id);
}

void require_on_bus(const Harness& harness, Index network, Index terminal) {
    const Index own = harness.terminals[terminal].network;
    if (own == network) return;
    refuse({"not-on-the-bus", tips_option,
            fmt::format("{} is on {}, not on bus '{}'", terminal_name(harness, terminal),
                        bus_words(harness, own), harness.networks[network].id),
            "both tips on one bus", "",
            own == none ? "name a terminal of the bus"
                        : fmt::format("leave --network out, or say --network {}", harness.networks[own].id)});
}

bool is_clip(const std::string& name) {
    return lower(name) == "clip";
}

// What is no terminal of a part; `clip` is resolved by the other tip.
Contact contact_of(const Harness& harness, Index network, const std::string& name) {
    const std::string plain = lower(name);
    if (plain == "ground") return {Contact::Kind::Ground, none};
    if (plain == "supply") return {Contact::Kind::Supply, none};
    const Index terminal = find(terminal_names(harness), name);
    if (terminal == none) refuse_tip(harness, name, false);
    require_on_bus(harness, network, terminal);
    return diagnosis::at(terminal);
}

// The clip is on both lines: a terminal of line L meets L, all else H.
Contact clip_for(const Harness& harness, Index clip, const Contact& other) {
    const bool low =
        other.kind == Contact::Kind::Terminal && harness.terminals[other.terminal].line == harness::Line::Low;
    return diagnosis::at(harness.points[clip].terminal[low ? 1 : 0]);
}

[[noreturn]] void refuse_one_tip(const std::string& name) {
    refuse({"second-tip-missing", tips_option,
            fmt::format("'{}' is one terminal, and a meter has two leads", name),
            "a second terminal, ground, supply or clip; or a point of a pair for H to L there", "",
            fmt::format("for example: --between {} {}", name, is_clip(name) ? "ground" : "clip")});
}

Tips tips_at_point(const Harness& harness, Index network, Index clip, const std::string& name) {
    const Index point = is_clip(name) ? clip : find(point_names(harness), name);
    if (point != none) {
        const auto& terminal = harness.points[point].terminal;
        require_on_bus(harness, network, terminal[0]);
        if (terminal[1] == none) refuse_one_tip(name);
        return {diagnosis::at(terminal[0]), diagnosis::at(terminal[1])};
    }
    if (find(terminal_names(harness), name) == none) refuse_tip(harness, name, true);
    refuse_one_tip(name);
}

}  // namespace

Tips tips_named(const Harness& harness, Index network, Index clip, const std::vector<std::string>& names) {
    if (names.size() == 1) return tips_at_point(harness, network, clip, names.front());
    if (is_clip(names[0]) && is_clip(names[1])) return tips_at_point(harness, network, clip, "clip");
    Tips tips;
    if (!is_clip(names[0])) tips.red = contact_of(harness, network, names[0]);
    if (!is_clip(names[1])) tips.black = contact_of(harness, network, names[1]);
    if (is_clip(names[0])) tips.red = clip_for(harness, clip, tips.black);
    if (is_clip(names[1])) tips.black = clip_for(harness, clip, tips.red);
    return tips;
}

Index network_of_tips(const Harness& harness, const std::vector<std::string>& names) {
    for (const std::string& name : names) {
        const Index point = find(point_names(harness), name);
        if (point != none) return harness.points[point].network;
        const Index terminal = find(terminal_names(harness), name);
        if (terminal != none && harness.terminals[terminal].network != none)
            return harness.terminals[terminal].network;
    }
    return none;
}

electrics::Apart parts_apart(const Harness& harness, diagnosis::Predictor& predictor,
                             const std::vector<std::string>& names) {
    std::vector<std::string> ids;
    for (const harness::Part& part : harness.parts) ids.push_back(part.id);
    electrics::Apart result;
    for (const std::string& name : names) {
        const Index part = find(ids, name);
        if (part == none) {
            refuse({"unknown-part", apart_option, fmt::format("no part is named '{}'", name),
                    "connectors, modules, bridge plugs or terminators, with commas between them",
                    nearest_name(name, ids), "write the name as it stands in the harness file"});
        }
        const PartKind kind = harness.parts[part].kind;
        if (kind == PartKind::Run || kind == PartKind::Splice || kind == PartKind::Socket) {
            refuse({"cannot-come-apart", apart_option,
                    fmt::format("{} is a {}, and that does not come apart", ids[part], word(kind)),
                    "a connector, module, bridge plug or terminator", "",
                    "name what is unplugged at its end"});
        }
        bool on_bus = false;
        for (std::size_t variant = 0; variant < predictor.variants().size(); ++variant) {
            on_bus = on_bus || !predictor.circuit(variant).assembly.edges_of_part[part].empty();
        }
        if (!on_bus) {
            refuse({"not-on-the-bus", apart_option,
                    fmt::format("{} is not on bus '{}' of this vehicle", ids[part],
                                harness.networks[predictor.network()].id),
                    "parts of the bus that is read", "", "leave it out: it changes nothing here"});
        }
        result.push_back(part);
    }
    std::sort(result.begin(), result.end());
    result.erase(std::unique(result.begin(), result.end()), result.end());
    return result;
}

}  // namespace halfsplit::advice
