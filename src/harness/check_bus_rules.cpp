// What the network's standard allows: terminators, stubs, length, number of modules; on this vehicle.
#include "halfsplit/harness/vehicle.hpp"

#include <fmt/format.h>

#include "harness/backbone.hpp"
#include "harness/bus_rules.hpp"
#include "harness/links.hpp"
#include "harness/reading.hpp"

namespace halfsplit::harness {

namespace {

// What of one network is or may be there.
struct Members {
    std::vector<std::pair<Index, std::size_t>> modules;  // part and attachment
    std::vector<Index> terminators;                      // parts that hold one
    std::vector<Port> ends;                              // where they sit
    std::vector<Link> links;
};

void add_terminator(Index part, const Port& port, Members& members) {
    members.terminators.push_back(part);
    members.ends.push_back(port);
}

std::vector<Members> members_by_network(const Harness& harness) {
    using Terminator = Attachment::Terminator;
    const std::vector<Fitted> present = presence(harness);
    std::vector<Members> all(harness.networks.size());
    for (Index index = 0; index < harness.parts.size(); ++index) {
        const Part& part = harness.parts[index];
        if (present[index] == Fitted::No) continue;
        if (part.kind == PartKind::Terminator) add_terminator(index, part.in, all[part.network]);
        if (part.kind != PartKind::Module) continue;
        for (std::size_t which = 0; which < part.attachments.size(); ++which) {
            const Attachment& attachment = part.attachments[which];
            Members& members = all[attachment.network];
            members.modules.emplace_back(index, which);
            const bool on = attachment.terminator == Terminator::BuiltIn ||
                            attachment.terminator == Terminator::SwitchedOn;
            if (on) add_terminator(index, attachment.in, members);
        }
    }
    for (const Link& link : make_links(harness, present)) {
        all[harness.terminals[link.from].network].links.push_back(link);
    }
    return all;
}

std::string pointer(Index network) {
    return "/networks/" + std::to_string(network);
}

void check_stubs_together(const Backbone& backbone, Index index, Reading& reading) {
    const Network& network = reading.harness.networks[index];
    const Limit limit = all_stubs(network);
    if (limit.most <= 0 || backbone.stubs_m() <= limit.most + 1e-9) return;
    reading.findings.warning(
        "stubs-together", pointer(index),
        {fmt::format("the stubs of {} are {:.3g} m long together", network.id, backbone.stubs_m()),
         fmt::format("at most {:.3g} m ({})", limit.most, limit.source), "",
         "check the lengths and \"bit_rate\", or state \"longest_stub_m\" for this network"});
}

void check_stubs(const Members& members, const Backbone& backbone, std::size_t line, Index network,
                 Reading& reading) {
    const Limit limit = longest_stub(reading.harness.networks[network]);
    if (limit.most <= 0) return;
    for (const auto& [part, which] : members.modules) {
        const Part& module = reading.harness.parts[part];
        const double length = backbone.distance_m(module.attachments[which].in.terminal[line]);
        if (length <= limit.most + 1e-9) continue;
        reading.findings.warning("stub-too-long", module.pointer + "/buses/" + std::to_string(which),
                                 {fmt::format("the stub to {} is {:.3g} m long", module.id, length),
                                  fmt::format("at most {:.3g} m ({})", limit.most, limit.source), "",
                                  "check the lengths, or state \"longest_stub_m\" for this network"});
    }
}

void check_length(const Backbone& backbone, Index index, Reading& reading) {
    const Network& network = reading.harness.networks[index];
    const Limit limit = longest_bus(network);
    if (limit.most <= 0 || backbone.length_m() <= limit.most + 1e-9) return;
    reading.findings.warning(
        "bus-too-long", pointer(index),
        {fmt::format("{} is {:.3g} m long from end to end", network.id, backbone.length_m()),
         fmt::format("at most {:.3g} m ({})", limit.most, limit.source), "",
         "check the lengths of its runs"});
}

void check_node_count(const Members& members, Index index, Reading& reading) {
    const Network& network = reading.harness.networks[index];
    const Limit limit = most_nodes(network);
    if (limit.most <= 0 || static_cast<double>(members.modules.size()) <= limit.most) return;
    reading.findings.warning("too-many-nodes", pointer(index),
                             {fmt::format("{} has {} modules", network.id, members.modules.size()),
                              fmt::format("at most {:.0f} ({})", limit.most, limit.source), "",
                              "check which of them are on another network"});
}

// One line stands for both: the runs are as long for the one as for the other.
Backbone backbone_of(const Harness& harness, const Members& members, std::size_t line) {
    std::vector<Link> links;
    for (const Link& link : members.links) {
        if (static_cast<std::size_t>(harness.terminals[link.from].line) == line) links.push_back(link);
    }
    std::vector<Index> ends;
    for (const Port& port : members.ends) {
        if (port.terminal[line] != none) ends.push_back(port.terminal[line]);
    }
    return {links, ends};
}

}  // namespace

void check_bus_rules(Reading& reading) {
    if (!reading.wiring_sound) return;
    const std::vector<Members> all = members_by_network(reading.harness);
    constexpr auto line = static_cast<std::size_t>(Line::High);
    for (Index network = 0; network < all.size(); ++network) {
        const Backbone backbone = backbone_of(reading.harness, all[network], line);
        check_terminators(network, all[network].terminators, backbone.has_ring(), reading);
        check_node_count(all[network], network, reading);
        if (!backbone.exists()) continue;
        check_stubs(all[network], backbone, line, network, reading);
        check_stubs_together(backbone, network, reading);
        check_length(backbone, network, reading);
    }
}

}  // namespace halfsplit::harness
