#include "halfsplit/diagnosis/fault.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace halfsplit::diagnosis {

using electrics::Assembly;
using electrics::Change;
using electrics::EdgeKind;
using electrics::EdgeRole;
using electrics::open_circuit;
using harness::Harness;
using harness::Index;
using harness::Line;
using harness::none;
using harness::PartKind;

Faults::Faults(std::initializer_list<Fault> faults) {
    for (const Fault& fault : faults) push_back(fault);
}

Faults::Faults(const std::vector<Fault>& faults) {
    for (const Fault& fault : faults) push_back(fault);
}

void Faults::push_back(const Fault& fault) {
    if (size_ == most) throw std::length_error("too many faults for one explanation");
    faults_[size_++] = fault;
}

namespace {

// Ohms tried for a bad joint (added) and for a short: from memory, corroded contacts are found from a few
// ohms to kilohms, and chafed wires from bare metal to a damp trace. Steps of five, eight and twenty.
constexpr std::array<double, 5> joint_ohms{8, 40, 200, 1000, 5000};
constexpr std::array<double, 3> short_ohms{usual_short_ohm, 2.5, 20};
constexpr std::array<double, 3> ground_short_ohms{usual_short_ohm, 6, 120};

// Standard deviation of the logarithm, even over one step.
double of_step(double step) {
    return std::log(step) / std::sqrt(12.0);
}

Lines as_lines(Line line) {
    return line == Line::High ? Lines::High : Lines::Low;
}

bool concerns(Lines lines, Line line) {
    return lines == Lines::Both || lines == as_lines(line);
}

// Faults that one edge of the assembly stands for.
void add_edge_faults(const EdgeRole& role, PartKind kind, std::vector<Fault>& faults) {
    Fault fault{.part = role.part, .lines = as_lines(role.line), .terminal = role.terminal, .run = role.run};
    const auto add = [&](Mode mode, double ohm = 0) {
        fault.mode = mode;
        fault.ohm = ohm;
        faults.push_back(fault);
    };
    const auto add_joints = [&] {
        for (const double ohm : joint_ohms) add(Mode::BadJoint, ohm);
    };
    switch (role.kind) {
        case EdgeKind::Wire:
        case EdgeKind::Crimp:
            add(Mode::Open);
            add_joints();
            break;
        case EdgeKind::Contact:
            add(Mode::Receded);
            add_joints();
            break;
        case EdgeKind::Through:
            if (kind == PartKind::Module) add(Mode::PassThroughOpen);
            break;
        case EdgeKind::Terminator:
            fault.lines = Lines::Both;
            add(Mode::TerminatorMissing);
            break;
        case EdgeKind::NoTerminator:
            fault.lines = Lines::Both;
            add(Mode::ExtraTerminator);
            break;
        case EdgeKind::ShortLines:
            fault.lines = Lines::Both;
            for (const double ohm : short_ohms) add(Mode::ShortLines, ohm);
            break;
        case EdgeKind::ShortGround:
            for (const double ohm : ground_short_ohms) add(Mode::ShortGround, ohm);
            break;
        case EdgeKind::ShortSupply:
            for (const double ohm : ground_short_ohms) add(Mode::ShortSupply, ohm);
            break;
        case EdgeKind::Transceiver:
        case EdgeKind::Load:
            break;
    }
}

bool has_loop(const Assembly& assembly, Index part) {
    const auto& edges = assembly.edges_of_part[part];
    return std::any_of(edges.begin(), edges.end(),
                       [&](std::size_t edge) { return assembly.roles[edge].kind == EdgeKind::Through; });
}

// Faults of the part as a whole: several edges at once. On a single line one edge has them already.
void add_whole_faults(const Harness& harness, const Assembly& assembly, Index part,
                      std::vector<Fault>& faults) {
    switch (harness.parts[part].kind) {
        case PartKind::Run:
            if (!assembly.single_line)
                faults.push_back({.part = part, .mode = Mode::Open, .lines = Lines::Both});
            break;
        case PartKind::Connector:
            faults.push_back({.part = part, .mode = Mode::Apart, .lines = Lines::Both});
            break;
        case PartKind::Module:
            faults.push_back({.part = part, .mode = Mode::Apart, .lines = Lines::Both});
            if (has_loop(assembly, part) && !assembly.single_line) {
                faults.push_back({.part = part, .mode = Mode::PassThroughOpen, .lines = Lines::Both});
            }
            break;
        case PartKind::BridgePlug:
            faults.push_back({.part = part, .mode = Mode::BridgeAbsent, .lines = Lines::Both});
            break;
        case PartKind::Splice:
        case PartKind::Terminator:
        case PartKind::Socket:
            break;
    }
}

bool opens(Mode mode) {
    return mode == Mode::Open || mode == Mode::Apart || mode == Mode::Receded || mode == Mode::BridgeAbsent ||
           mode == Mode::PassThroughOpen || mode == Mode::TerminatorMissing;
}

// Which kinds of edge a mode acts on.
bool acts_on(Mode mode, EdgeKind kind) {
    switch (mode) {
        case Mode::Open:
            return kind == EdgeKind::Wire || kind == EdgeKind::Crimp;
        case Mode::BadJoint:
            return kind == EdgeKind::Wire || kind == EdgeKind::Crimp || kind == EdgeKind::Contact;
        case Mode::ShortLines:
            return kind == EdgeKind::ShortLines;
        case Mode::ShortGround:
            return kind == EdgeKind::ShortGround;
        case Mode::ShortSupply:
            return kind == EdgeKind::ShortSupply;
        case Mode::TerminatorMissing:
            return kind == EdgeKind::Terminator;
        case Mode::ExtraTerminator:
            return kind == EdgeKind::NoTerminator;
        case Mode::Apart:
        case Mode::Receded:
        case Mode::BridgeAbsent:
            return kind == EdgeKind::Contact;
        case Mode::PassThroughOpen:
            return kind == EdgeKind::Through;
    }
    return false;
}

double changed_ohm(const Fault& fault, const Assembly& assembly, std::size_t edge) {
    if (opens(fault.mode)) return open_circuit;
    if (fault.mode == Mode::BadJoint) return assembly.circuit.edges[edge].ohm + fault.ohm;
    if (fault.mode == Mode::ExtraTerminator) return 120.0;  // ISO 11898-2 nominal
    return fault.ohm;
}

}  // namespace

std::vector<Fault> all_faults(const Harness& harness, const Assembly& assembly) {
    std::vector<std::vector<Fault>> by_part(harness.parts.size());
    for (const EdgeRole& role : assembly.roles) {
        if (role.part == none) continue;
        auto& faults = by_part[role.part];
        if (faults.empty()) add_whole_faults(harness, assembly, role.part, faults);
        add_edge_faults(role, harness.parts[role.part].kind, faults);
    }
    std::vector<Fault> result;
    for (auto& faults : by_part) result.insert(result.end(), faults.begin(), faults.end());
    return result;
}

double ohm_spread(Mode mode) {
    switch (mode) {
        case Mode::BadJoint:
            return of_step(joint_ohms[1] / joint_ohms[0]);
        case Mode::ShortLines:
            return of_step(short_ohms[1] / short_ohms[0]);
        case Mode::ShortGround:
        case Mode::ShortSupply:
            return of_step(ground_short_ohms[1] / ground_short_ohms[0]);
        case Mode::ExtraTerminator:
            return terminator_spread;
        default:
            return 0;
    }
}

std::vector<Change> changes(const Fault& fault, const Assembly& assembly) {
    std::vector<Change> result;
    for (const std::size_t edge : assembly.edges_of_part[fault.part]) {
        const EdgeRole& role = assembly.roles[edge];
        if (!acts_on(fault.mode, role.kind)) continue;
        const bool of_lines = role.kind == EdgeKind::Terminator || role.kind == EdgeKind::NoTerminator ||
                              role.kind == EdgeKind::ShortLines || concerns(fault.lines, role.line);
        if (!of_lines) continue;
        if (fault.terminal != none && role.terminal != none && role.terminal != fault.terminal) continue;
        if (fault.run != none && role.run != none && role.run != fault.run) continue;
        // What is already apart is not mended by being bad as well.
        const double ohm = changed_ohm(fault, assembly, edge);
        if (fault.mode == Mode::BadJoint && assembly.circuit.edges[edge].ohm == open_circuit) continue;
        result.push_back({edge, ohm});
    }
    return result;
}

}  // namespace halfsplit::diagnosis
