#include "resolve.hpp"

namespace halfsplit::job {

namespace {

// Newest first: whether an undo counts is known before the older record it is about is reached.
void apply_undos(const std::vector<Record>& records, std::vector<Resolved>& resolved) {
    for (std::size_t i = records.size(); i-- > 0;) {
        if (!resolved[i].counts || !std::holds_alternative<Undo>(records[i].event.body)) continue;
        if (const auto target = target_of(records, i)) resolved[*target].counts = false;
    }
}

// Does what the old event implied hold for the new one too?
bool same_place(const Event& old, const Event& now) {
    if (old.body.index() != now.body.index()) return false;
    if (const auto* reading = std::get_if<Reading>(&old.body)) {
        const auto& other = std::get<Reading>(now.body);
        return reading->red == other.red && reading->black == other.black;
    }
    if (const auto* distance = std::get_if<Distance>(&old.body)) {
        const auto& other = std::get<Distance>(now.body);
        return distance->from == other.from && distance->to == other.to;
    }
    if (const auto* seen = std::get_if<Seen>(&old.body)) return seen->part == std::get<Seen>(now.body).part;
    if (const auto* repair = std::get_if<Repair>(&old.body)) {
        const auto& other = std::get<Repair>(now.body);
        return repair->part == other.part && repair->action == other.action;
    }
    return old.body == now.body;
}

// Oldest first, so that the newest amend counts. Marks whose implications no longer hold.
std::vector<bool> apply_amends(const std::vector<Record>& records, std::vector<Resolved>& resolved) {
    std::vector<bool> moved(records.size(), false);
    for (std::size_t i = 0; i < records.size(); ++i) {
        const auto* amend = std::get_if<Amend>(&records[i].event.body);
        if (amend == nullptr || !resolved[i].counts) continue;
        const auto target = target_of(records, i);
        if (!target) continue;
        Resolved& changed = resolved[*target];
        changed.event = amend->event.get();
        if (amend->event->minutes) changed.minutes = amend->event->minutes;
        moved[*target] = !same_place(records[*target].event, *amend->event);
    }
    return moved;
}

}  // namespace

std::optional<std::size_t> position_of(const std::vector<Record>& records, Sequence sequence) {
    if (sequence == 0 || sequence > records.size() || records[sequence - 1].sequence != sequence)
        return std::nullopt;
    return sequence - 1;
}

std::optional<std::size_t> target_of(const std::vector<Record>& records, std::size_t from) {
    const Body& body = records[from].event.body;
    const auto* amend = std::get_if<Amend>(&body);
    const auto* undo = std::get_if<Undo>(&body);
    if (amend == nullptr && undo == nullptr) return std::nullopt;
    const auto target = position_of(records, amend != nullptr ? amend->target : undo->target);
    if (!target || *target >= from) return std::nullopt;
    const Event& event = records[*target].event;
    if (undo != nullptr) return std::holds_alternative<Opened>(event.body) ? std::nullopt : target;
    if (!amend->event || !may_be_amended(*amend->event)) return std::nullopt;
    if (std::holds_alternative<Amend>(event.body)) return target_of(records, *target);
    return may_be_amended(event) ? target : std::nullopt;
}

std::size_t owner_of(const std::vector<Record>& records, std::size_t position) {
    while (position > 0 && is_implied(records[position].event)) --position;
    return position;
}

std::vector<Resolved> resolve(const std::vector<Record>& records) {
    std::vector<Resolved> resolved;
    resolved.reserve(records.size());
    for (const Record& record : records)
        resolved.push_back({&record, &record.event, record.event.minutes, true});
    apply_undos(records, resolved);
    const std::vector<bool> moved = apply_amends(records, resolved);
    for (std::size_t i = 0; i < records.size(); ++i) {
        if (!is_implied(records[i].event)) continue;
        const std::size_t owner = owner_of(records, i);
        if (!resolved[owner].counts || moved[owner]) resolved[i].counts = false;
    }
    return resolved;
}

}  // namespace halfsplit::job
