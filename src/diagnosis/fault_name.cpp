// What a fault is called: on the command line, and to a person.
#include "halfsplit/base/text.hpp"
#include "halfsplit/diagnosis/fault.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace halfsplit::diagnosis {

using harness::Harness;
using harness::none;
using harness::Part;

namespace {

struct ModeName {
    Mode mode;
    std::string_view on_command_line, in_words;
};

constexpr std::array<ModeName, 11> mode_names{{
    {Mode::Open, "open", "open"},
    {Mode::BadJoint, "joint", "bad joint"},
    {Mode::ShortLines, "short", "short between H and L"},
    {Mode::ShortGround, "ground", "short to ground"},
    {Mode::ShortSupply, "supply", "short to supply"},
    {Mode::TerminatorMissing, "missing", "terminator missing or open inside"},
    {Mode::ExtraTerminator, "extra", "a terminator too many"},
    {Mode::Apart, "apart", "connector apart"},
    {Mode::Receded, "receded", "pin receded"},
    {Mode::BridgeAbsent, "absent", "bridge plug absent or apart"},
    {Mode::PassThroughOpen, "through", "pass-through open inside"},
}};

const ModeName& names_of(Mode mode) {
    return mode_names[static_cast<std::size_t>(mode)];
}

// Whether the part, or what of it the fault is at, belongs to single lines alone.
bool on_single_line(const Harness& harness, const Fault& fault) {
    const auto is_single = [](const harness::Network& network) { return network.single_line; };
    if (std::none_of(harness.networks.begin(), harness.networks.end(), is_single)) return false;
    const Part& part = harness.parts[fault.part];
    if (part.network != none) return harness.networks[part.network].single_line;
    bool single = false;
    for (harness::Index terminal = 0; terminal < harness.terminals.size(); ++terminal) {
        const harness::Terminal& it = harness.terminals[terminal];
        if (it.part != fault.part || it.network == none) continue;
        if (fault.terminal != none && terminal != fault.terminal) continue;
        if (!harness.networks[it.network].single_line) return false;
        single = true;
    }
    return single;
}

// Both lines are the only choice of some modes and then go unsaid.
bool line_matters(const Fault& fault) {
    switch (fault.mode) {
        case Mode::ShortLines:
        case Mode::TerminatorMissing:
        case Mode::ExtraTerminator:
        case Mode::Apart:
        case Mode::BridgeAbsent:
            return false;
        default:
            return true;
    }
}

std::string_view line_suffix(Lines lines) {
    if (lines == Lines::High) return "-h";
    return lines == Lines::Low ? "-l" : "";
}

}  // namespace

std::string name(const Harness& harness, const Fault& fault) {
    std::string text =
        fmt::format("{}:{}", harness.parts[fault.part].id, names_of(fault.mode).on_command_line);
    if (line_matters(fault) && !on_single_line(harness, fault)) text += line_suffix(fault.lines);
    if (fault.run != none) {
        text += "@" + harness.parts[fault.run].id;
    } else if (fault.terminal != none) {
        text += "@" + harness.terminals[fault.terminal].cavity;
    }
    return text;
}

std::string in_words(const Harness& harness, const Fault& fault) {
    const Part& part = harness.parts[fault.part];
    std::string text{names_of(fault.mode).in_words};
    if (line_matters(fault) && !on_single_line(harness, fault)) {
        text += fault.lines == Lines::Both   ? ", both lines"
                : fault.lines == Lines::High ? ", line H"
                                             : ", line L";
    }
    if (fault.run != none) {
        text += fmt::format(", leg of run {}", harness.parts[fault.run].id);
    } else if (fault.terminal != none) {
        text += fmt::format(", cavity {}", harness.terminals[fault.terminal].cavity);
    }
    text += fmt::format(", {} {}", word(part.kind), part.id);
    if (!part.name.empty()) text += fmt::format(" ({})", part.name);
    return text;
}

std::vector<std::string> mode_words() {
    std::vector<std::string> words;
    for (const ModeName& mode : mode_names) words.emplace_back(mode.on_command_line);
    return words;
}

}  // namespace halfsplit::diagnosis
