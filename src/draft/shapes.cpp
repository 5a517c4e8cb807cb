#include "draft/shapes.hpp"

#include <algorithm>
#include <tuple>

namespace halfsplit::draft {

namespace {

const char* letter(std::size_t line) {
    return line == 0 ? "H" : "L";
}

}  // namespace

Shapes::Shapes(const Loom& loom, const Followed& followed, NameMaker& names)
    : loom_(loom), followed_(followed), names_(names) {
    gather();
    for (ShapedPart& part : parts_) {
        part.shape = shape_of(part);
        name(part);
    }
    join_wires();
}

void Shapes::gather() {
    for (std::size_t line = 0; line < followed_.lines.size(); ++line) {
        for (const std::size_t wire : followed_.lines[line].wires) {
            for (const LoomEnd& end : loom_.wires[wire].ends) {
                const std::size_t mate = loom_.parts[end.part].mate;
                const bool met = mate != nowhere && index_.contains(mate);
                const auto [entry, fresh] =
                    index_.try_emplace(end.part, met ? index_.at(mate) : parts_.size());
                if (fresh && !met) parts_.push_back({.part = end.part});
                auto& contacts = parts_[entry->second].contacts[line];
                const auto passage = followed_.lines[line].passages.find(end.part);
                if (contacts.empty() && passage != followed_.lines[line].passages.end())
                    contacts.assign(passage->second.begin(), passage->second.end());
                const std::string contact = contact_of(loom_, end);
                if (std::find(contacts.begin(), contacts.end(), contact) == contacts.end())
                    contacts.push_back(contact);
                ++wires_at_[{end.part, contact, line}];
            }
        }
    }
}

Shape Shapes::shape_of(const ShapedPart& part) const {
    const LoomPart& it = loom_.parts[part.part];
    if (it.use == PartUse::Splice) return Shape::Splice;
    const bool one_line =
        followed_.lines.size() == 2 && (part.contacts[0].empty() || part.contacts[1].empty());
    return it.mate != nowhere || it.use == PartUse::Open || one_line ? Shape::Connector : Shape::Modules;
}

void Shapes::name(ShapedPart& part) {
    const LoomPart& it = loom_.parts[part.part];
    const std::string wanted = it.mate == nowhere ? it.id : it.connector;
    part.ids.push_back(names_.id(wanted, "part"));
    if (part.shape != Shape::Modules) return;
    std::size_t fewest = part.contacts[0].size();
    std::size_t most = fewest;
    for (std::size_t line = 0; line < followed_.lines.size(); ++line) {
        fewest = std::min(fewest, part.contacts[line].size());
        most = std::max(most, part.contacts[line].size());
    }
    part.loop = followed_.lines[0].passages.contains(part.part);
    for (std::size_t contact = part.loop ? 2 : 1; contact < fewest; ++contact)
        part.ids.push_back(names_.id(wanted + '-' + part.contacts[0][contact], "part"));
    if (most > fewest) part.rest = names_.id(wanted + "-rest", "part");
}

void Shapes::join_wires() {
    for (const auto& [where, wires] : wires_at_) {
        const auto& [part, cavity, line] = where;
        if (wires < 2 || of(part).shape == Shape::Splice) continue;
        joint_at_[where] = joints_.size();
        const std::string id =
            names_.id(of(part).ids.front() + (cavity.empty() ? "" : '-' + cavity) + "-joint", "joint");
        joints_.push_back({part, line, cavity, id});
    }
}

std::string Shapes::terminal(std::size_t line, const LoomEnd& end) const {
    const auto joint = joint_at_.find({end.part, contact_of(loom_, end), line});
    if (joint != joint_at_.end()) return joints_[joint->second].id + ':' + letter(line);
    return own_terminal(line, end);
}

std::string Shapes::own_terminal(std::size_t line, const LoomEnd& end) const {
    const ShapedPart& part = of(end.part);
    if (part.shape == Shape::Splice) return part.ids.front() + ':' + letter(line);
    const std::string contact = contact_of(loom_, end);
    const std::string cavity = names_.cavity(part.part, contact);
    if (part.shape == Shape::Connector) {
        const char half = loom_.parts[end.part].half;
        return part.ids.front() + '.' + (half == 0 ? 'a' : half) + ':' + cavity;
    }
    const auto& contacts = part.contacts[line];
    const auto which =
        static_cast<std::size_t>(std::find(contacts.begin(), contacts.end(), contact) - contacts.begin());
    return which < part.module_contacts() ? part.module(which) + ':' + cavity : part.rest + ".a:" + cavity;
}

}  // namespace halfsplit::draft
