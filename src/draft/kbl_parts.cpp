#include "draft/kbl_parts.hpp"

#include <utility>

namespace halfsplit::draft {

namespace {

PartUse use_of(pugi::xml_node occurrence) {
    const std::string usage = kbl_text(occurrence, "Usage");
    if (usage == "splice") return PartUse::Splice;
    if (usage == "no end") return PartUse::Open;
    return usage == "ring terminal" ? PartUse::Eyelet : PartUse::Plug;
}

}  // namespace

KblParts::KblParts(const KblFile& file, const KblLayout& layout, Loom& loom)
    : file_(file), layout_(layout), loom_(loom) {
    for (const pugi::xml_node occurrence : file.harness().children("Connector_occurrence"))
        add(occurrence, use_of(occurrence));
    for (const pugi::xml_node occurrence : file.harness().children("Component_box_occurrence"))
        add(occurrence, PartUse::Plug);
    mate();
}

void KblParts::add(pugi::xml_node occurrence, PartUse use) {
    LoomPart part;
    part.id = kbl_text(occurrence, "Id");
    if (part.id.empty()) part.id = occurrence.attribute("id").value();
    part.name = kbl_text(occurrence, "Description");
    part.use = use;
    part.offset = file_.offset(occurrence);
    place(occurrence, part);
    const std::size_t index = loom_.parts.size();
    loom_.parts.push_back(std::move(part));
    occurrences_.push_back(occurrence);
    enter_contacts(occurrence, index);
    for (const pugi::xml_node slot : occurrence.children("Slots"))
        slot_part_.emplace(slot.attribute("id").value(), index);
}

// A ring terminal is often placed and named by the terminal in its contact and not by its housing.
void KblParts::place(pugi::xml_node occurrence, LoomPart& part) const {
    KblSpot spot = layout_.spot(occurrence.attribute("id").value());
    for (const pugi::xml_node contact : occurrence.children("Contact_points")) {
        for (const std::string& id : kbl_references(contact, "Associated_parts")) {
            const pugi::xml_node terminal = file_.find(id);
            if (std::string_view(terminal.name()) != "Special_terminal_occurrence") continue;
            if (spot.node.empty()) spot = layout_.spot(id);
            if (part.name.empty()) part.name = kbl_text(terminal, "Description");
        }
    }
    part.node = std::move(spot.node);
    part.at_m = spot.at_m;
}

void KblParts::enter_contacts(pugi::xml_node occurrence, std::size_t part) {
    for (const pugi::xml_node contact : occurrence.children("Contact_points")) {
        Contact entry;
        entry.end.part = part;
        entry.end.cavity = cavity_name(contact, entry.why);
        if (loom_.parts[part].use == PartUse::Splice || loom_.parts[part].use == PartUse::Eyelet)
            entry.why.clear();  // there is but one
        contacts_.emplace(contact.attribute("id").value(), std::move(entry));
    }
}

// The number of the first cavity that it fills; with the slot's name in front where there are several slots.
std::string KblParts::cavity_name(pugi::xml_node contact, std::string& why) const {
    const std::vector<std::string> cavities = kbl_references(contact, "Contacted_cavity");
    const std::string first = cavities.empty() ? std::string() : cavities.front();
    const pugi::xml_node occurrence = file_.find(first);
    if (!occurrence) {
        why = kbl_name(contact) + " fills a cavity that is not there: " + file_.why_not(first);
        return {};
    }
    const pugi::xml_node cavity = file_.find(kbl_text(occurrence, "Part"));
    std::string name = kbl_text(cavity, "Cavity_number");
    if (name.empty()) {
        why = kbl_name(occurrence) + " has no number: " + file_.why_not(kbl_text(occurrence, "Part"));
        return {};
    }
    const pugi::xml_node slot = occurrence.parent();
    if (!slot.previous_sibling("Slots") && !slot.next_sibling("Slots")) return name;
    const std::string of = kbl_text(file_.find(kbl_text(slot, "Part")), "Id");
    return of.empty() ? name : of + '.' + name;
}

LoomEnd KblParts::end_at(const std::string& contact_point, std::string& why) const {
    const auto found = contacts_.find(contact_point);
    if (found == contacts_.end()) {
        why = "it ends at contact point " + file_.why_not(contact_point);
        if (file_.find(contact_point))
            why = "contact point \"" + contact_point + "\" belongs to no connector";
        return {};
    }
    if (!file_.find(contact_point)) {
        why = "it ends at contact point " + file_.why_not(contact_point);
        return {};
    }
    why = found->second.why;
    return found->second.end;
}

void KblParts::mate() {
    for (std::size_t part = 0; part < occurrences_.size(); ++part) {
        for (const pugi::xml_node slot : occurrences_[part].children("Slots")) {
            for (const std::string& id : kbl_references(slot, "Mated_slots")) {
                const auto other = slot_part_.find(id);
                if (other != slot_part_.end()) mate(part, other->second);
            }
        }
    }
}

void KblParts::mate(std::size_t part, std::size_t other) {
    LoomPart& one = loom_.parts[part];
    LoomPart& two = loom_.parts[other];
    if (part == other || one.mate == other) return;
    if (one.mate != nowhere || two.mate != nowhere || one.use != PartUse::Plug || two.use != PartUse::Plug) {
        loom_.left_out.push_back(one.id + " and " + two.id +
                                 " mate: a connector has two halves, and one of them mates already");
        return;
    }
    one.mate = other;
    two.mate = part;
    one.half = 'a';
    two.half = 'b';
    one.connector = two.connector = one.id + '+' + two.id;
}

}  // namespace halfsplit::draft
