#include "advice/hindsight/site.hpp"

#include "halfsplit/advice/evidence.hpp"

#include <array>

namespace halfsplit::advice {

using access::Costs;
using access::Site;
using diagnosis::Contact;
using harness::Harness;
using harness::Index;
using harness::none;

namespace {

// A lead on the clip is there already; ground and supply are at hand everywhere. Where both leads are carried
// about, the covers before both have to be off, and the reading is taken where the first of them is.
std::optional<Site> site_of_reading(const Harness& harness, const Costs& costs, const job::Reading& reading,
                                    Index clip) {
    std::optional<Site> site;
    std::optional<Site> at_clip;
    for (const std::string* name : {&reading.red, &reading.black}) {
        const auto contact = contact_named(harness, *name);
        if (!contact) return std::nullopt;
        if (contact->kind != Contact::Kind::Terminal) continue;
        const Site own = costs.probe(contact->terminal);
        const auto& clipped = clip == none ? std::array<Index, 2>{none, none} : harness.points[clip].terminal;
        if (contact->terminal == clipped[0] || contact->terminal == clipped[1]) {
            at_clip = own;
        } else if (site) {
            site->need |= own.need;
        } else {
            site = own;
        }
    }
    return site ? site : at_clip;
}

// Both ends; the second is where the hand is in the end.
std::optional<Site> site_of_distance(const Harness& harness, const Costs& costs,
                                     const job::Distance& distance) {
    std::optional<Site> site;
    for (const std::string* name : {&distance.from, &distance.to}) {
        const Index point = find_point(harness, *name);
        if (point == none) return std::nullopt;
        Site own = costs.clip(point);
        if (site) own.need |= site->need;
        site = own;
    }
    return site;
}

std::optional<Site> site_of_part(const Harness& harness, const Costs& costs, const std::string& id) {
    const Index part = find_part(harness, id);
    if (part == none) return std::nullopt;
    return costs.look(part);
}

std::optional<Site> site_of_clip(const Harness& harness, const Costs& costs, const std::string& name) {
    const Index point = find_point(harness, name);
    if (point == none) return std::nullopt;
    return costs.clip(point);
}

}  // namespace

std::optional<Site> site_of(const Harness& harness, const Costs& costs, const job::Event& event, Index clip) {
    const job::Body& body = event.body;
    if (const auto* reading = std::get_if<job::Reading>(&body))
        return site_of_reading(harness, costs, *reading, clip);
    if (const auto* distance = std::get_if<job::Distance>(&body))
        return site_of_distance(harness, costs, *distance);
    if (const auto* seen = std::get_if<job::Seen>(&body)) return site_of_part(harness, costs, seen->part);
    if (const auto* repair = std::get_if<job::Repair>(&body))
        return site_of_part(harness, costs, repair->part);
    if (const auto* plug = std::get_if<job::PlugChange>(&body))
        return site_of_part(harness, costs, plug->part);
    if (const auto* moved = std::get_if<job::ClipMoved>(&body))
        return site_of_clip(harness, costs, moved->point);
    return std::nullopt;
}

}  // namespace halfsplit::advice
