#include "halfsplit/advice/evidence.hpp"

#include "halfsplit/harness/companions.hpp"
#include "halfsplit/harness/meter_profile.hpp"
#include "halfsplit/harness/vehicle.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::advice {

using diagnosis::Contact;
using diagnosis::Evidence;
using diagnosis::Situation;
using harness::Harness;
using harness::Index;
using harness::none;

std::optional<Contact> contact_named(const Harness& harness, std::string_view name) {
    if (name == "ground") return Contact{Contact::Kind::Ground, none};
    if (name == "supply") return Contact{Contact::Kind::Supply, none};
    const Index terminal = find_terminal(harness, name);
    if (terminal == none) return std::nullopt;
    return diagnosis::at(terminal);
}

std::string name_of(const Harness& harness, const Contact& contact) {
    switch (contact.kind) {
        case Contact::Kind::Ground:
            return "ground";
        case Contact::Kind::Supply:
            return "supply";
        case Contact::Kind::Terminal:
            break;
    }
    return terminal_name(harness, contact.terminal);
}

bool has_volts(const harness::Network& network) {
    return !network.single_line && network.kind != "iso11898-3" && network.kind != "other";
}

Index clip_point(const Harness& harness, Index network, const job::State& state) {
    const Index moved = state.clip.empty() ? none : find_point(harness, state.clip);
    return moved != none ? moved : harness.networks[network].clip;
}

std::vector<diagnosis::LookAlike> look_alikes(const Harness& harness, const diagnosis::Tips& tips) {
    std::vector<diagnosis::LookAlike> result;
    const auto add = [&](const Contact& contact, bool red) {
        if (contact.kind != Contact::Kind::Terminal) return;
        for (const harness::Companion& other : companions(harness, contact.terminal)) {
            if (other.look_alike) result.push_back({red, other.terminal});
        }
    };
    add(tips.red, true);
    add(tips.black, false);
    return result;
}

harness::Assumptions rates(const Harness& harness, const job::State& state) {
    harness::Assumptions result = harness.assumptions;
    if (state.meter) {
        use(*state.meter, result);
        for (const char* figure : {"meter_percent", "meter_digits", "meter_counts", "meter_lead_ohm",
                                   "meter_limit_ohm", "buzzer_low_ohm", "buzzer_high_ohm"})
            result.stated.emplace_back(figure);
    }
    // A beta distribution whose mean is the assumed rate, worth as much as this many pins tried.
    constexpr double worth_of_assumption = 30;
    const auto tried = static_cast<double>(state.pins.tried);
    const auto slips = static_cast<double>(state.pins.slips);
    result.contact_slip = (result.contact_slip * worth_of_assumption + slips) / (worth_of_assumption + tried);
    return result;
}

namespace {

Situation situation_of(const Harness& harness, const job::State& state, const job::CircuitState& circuit) {
    Situation situation;
    for (const std::string& id : circuit.apart) {
        const Index part = find_part(harness, id);
        if (part != none) situation.apart.push_back(part);
    }
    std::sort(situation.apart.begin(), situation.apart.end());
    for (std::size_t i = 0; i < circuit.repairs && i < state.repairs.size(); ++i) {
        const Index part = find_part(harness, state.repairs[i].repair.part);
        const bool reseated = state.repairs[i].repair.action == job::RepairAction::Reseated;
        if (part != none) situation.repaired.push_back({part, reseated});
    }
    for (const std::string& id : circuit.reseated) {
        const Index part = find_part(harness, id);
        if (part != none) situation.reseated.push_back(part);
    }
    std::sort(situation.reseated.begin(), situation.reseated.end());
    return situation;
}

std::vector<Index> parts_named(const Harness& harness, const std::vector<std::string>& ids) {
    std::vector<Index> parts;
    for (const std::string& id : ids) {
        const Index part = find_part(harness, id);
        if (part != none) parts.push_back(part);
    }
    return parts;
}

std::optional<diagnosis::Observation> observation(const job::Reading& reading) {
    if (reading.quantity != job::Quantity::Ohm) return std::nullopt;
    switch (reading.outcome) {
        case job::Outcome::Value:
            return diagnosis::Observation{.shown = diagnosis::Shown::Ohm, .ohm = reading.value};
        case job::Outcome::Closed:
            return diagnosis::Observation{.shown = diagnosis::Shown::Closed};
        case job::Outcome::Open:
            return diagnosis::Observation{.shown = diagnosis::Shown::Open};
        case job::Outcome::NotSure:
        case job::Outcome::CouldNotReach:
            break;
    }
    return std::nullopt;
}

// None on a dead bus: the battery was on after all, or the figure is of something else.
std::optional<diagnosis::VoltObservation> volts(const job::TakenReading& taken) {
    const job::Reading& reading = taken.reading;
    if (reading.quantity != job::Quantity::Volt || reading.outcome != job::Outcome::Value ||
        taken.state.battery_off || !std::isfinite(reading.value))
        return std::nullopt;
    return diagnosis::VoltObservation{.volt = reading.value, .awake = !taken.state.bus_asleep};
}

void add_reading(const Harness& harness, Index network, const job::State& state,
                 const job::TakenReading& taken, Evidence& evidence) {
    const auto seen = observation(taken.reading);
    const auto live = has_volts(harness.networks[network]) ? volts(taken) : std::nullopt;
    const auto red = contact_named(harness, taken.reading.red);
    const auto black = contact_named(harness, taken.reading.black);
    if ((!seen && !live) || !red || !black) return;
    const diagnosis::Tips tips{*red, *black};
    evidence.measured.push_back({taken.sequence, tips, seen.value_or(diagnosis::Observation{}),
                                 situation_of(harness, state, taken.state),
                                 taken.reading.moved || taken.reading.wet, look_alikes(harness, tips), live});
}

void add_distance(const Harness& harness, const job::State& state, const job::TakenDistance& taken,
                  Evidence& evidence) {
    const job::Distance& distance = taken.distance;
    const Index from = find_point(harness, distance.from);
    const Index to = find_point(harness, distance.to);
    if (from == none || to == none) return;
    evidence.located.push_back({taken.sequence, from, to, distance.method, distance.lines, distance.metres,
                                distance.deviation, situation_of(harness, state, taken.state)});
}

// That all answer says nothing of a module that may not be there.
std::vector<Index> modules_surely_on(const Harness& harness, Index network) {
    std::vector<Index> modules = harness::modules_on(harness, network);
    const auto doubtful = [&](Index module) { return harness.parts[module].fitted != harness::Fitted::Yes; };
    modules.erase(std::remove_if(modules.begin(), modules.end(), doubtful), modules.end());
    return modules;
}

// In the order of the records: what came before it stays where it was, so that its account is carried on.
template <typename Item>
void insert_in_order(std::vector<Item>& items, Item item) {
    const auto later = std::find_if(items.begin(), items.end(),
                                    [&](const Item& other) { return other.sequence > item.sequence; });
    items.insert(later, std::move(item));
}

// A proof of repair is a reading at the clip, a scan and the complaint tried again, all in one.
void add_proof(const Harness& harness, Index network, const job::State& state, Evidence& evidence) {
    if (!state.verified) return;
    const job::Verified& proof = *state.verified;
    const Situation& now = evidence.now;
    const Index clip = clip_point(harness, network, state);
    if (proof.h_to_l_ohm && clip != none && harness.points[clip].terminal[1] != none) {
        const auto& terminal = harness.points[clip].terminal;
        insert_in_order(
            evidence.measured,
            diagnosis::Measured{.sequence = state.verified_at.value_or(0),
                                .tips = {diagnosis::at(terminal[0]), diagnosis::at(terminal[1])},
                                .observation = {.shown = diagnosis::Shown::Ohm, .ohm = *proof.h_to_l_ohm},
                                .situation = now});
    }
    if (proof.all_answer == true) {
        insert_in_order(evidence.scanned,
                        diagnosis::Scanned{
                            state.verified_at.value_or(0), {modules_surely_on(harness, network), {}}, now});
    }
    if (proof.complaint_gone) evidence.proved.push_back({*proof.complaint_gone, now});
}

}  // namespace

Evidence evidence(const Harness& harness, Index network, const job::State& state) {
    Evidence result;
    result.now = situation_of(
        harness, state, {.apart = state.apart, .reseated = state.reseated, .repairs = state.repairs.size()});
    result.rates = rates(harness, state);
    for (const job::TakenReading& taken : state.readings) add_reading(harness, network, state, taken, result);
    for (const job::TakenDistance& taken : state.distances) add_distance(harness, state, taken, result);
    for (const job::SeenPart& seen : state.seen) {
        const Index part = find_part(harness, seen.seen.part);
        if (part == none || !tells(seen.seen.verdict)) continue;
        const Situation then = situation_of(harness, state, {.repairs = seen.repairs});
        result.looked.push_back({seen.sequence, part, seen.seen.verdict == job::Verdict::Faulty, then});
    }
    for (const job::Scan& scan : state.scans) {
        result.scanned.push_back(
            {scan.sequence,
             {parts_named(harness, scan.answers.answering), parts_named(harness, scan.answers.silent)},
             situation_of(harness, state, scan.state)});
    }
    add_proof(harness, network, state, result);
    if (state.intake) {
        const auto& conditions = state.intake->conditions;
        result.comes_and_goes =
            std::any_of(conditions.begin(), conditions.end(), [](const std::string& condition) {
                return condition == "comes and goes" || condition == "bumps";
            });
    }
    return result;
}

Index standing_place(const Harness& harness, Index network, const job::State& state) {
    job::Sequence newest = 0;
    Index place = harness.start;
    const Index clip = clip_point(harness, network, state);
    const auto consider = [&](job::Sequence sequence, const harness::Access& access) {
        if (sequence < newest) return;
        newest = sequence;
        place = access.place;
    };
    const auto at_clip = [&](Index terminal) {
        return clip != none &&
               (terminal == harness.points[clip].terminal[0] || terminal == harness.points[clip].terminal[1]);
    };
    // The last that can be told is the newest.
    for (auto taken = state.readings.rbegin(); taken != state.readings.rend() && newest == 0; ++taken) {
        const auto red = contact_named(harness, taken->reading.red);
        const auto black = contact_named(harness, taken->reading.black);
        if (!red || !black) continue;
        // One lead is on the clip: the technician is at the other one.
        const Contact& hand = red->kind == Contact::Kind::Terminal && !at_clip(red->terminal) ? *red : *black;
        const Contact& probe = hand.kind == Contact::Kind::Terminal ? hand : *red;
        if (probe.kind == Contact::Kind::Terminal)
            consider(taken->sequence, access_of(harness, probe.terminal));
    }
    for (const job::TakenDistance& taken : state.distances) {
        const Index end = find_point(harness, taken.distance.to);
        if (end != none) consider(taken.sequence, access_of(harness, harness.points[end].terminal[0]));
    }
    for (const job::SeenPart& seen : state.seen) {
        const Index part = find_part(harness, seen.seen.part);
        if (part != none) consider(seen.sequence, harness.parts[part].access);
    }
    for (const job::DoneRepair& repair : state.repairs) {
        const Index part = find_part(harness, repair.repair.part);
        if (part != none) consider(repair.sequence, harness.parts[part].access);
    }
    return place;
}

}  // namespace halfsplit::advice
