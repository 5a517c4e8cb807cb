#include "plan/search.hpp"

#include "halfsplit/plan/exact.hpp"

#include <algorithm>

namespace halfsplit::plan {

using access::Standing;

Search::Search(const Model& model, SuspectSets& sets, std::uint64_t most_expansions)
    : model_(model), sets_(sets), most_expansions_(most_expansions) {}

std::uint64_t Search::hash_of(SetId set, std::uint32_t place, access::CoverSet off) {
    const std::uint64_t hash = mix(mix(set, off), place);
    return hash ^ hash >> 32U;
}

StateId Search::state(SetId set, const Standing& standing) {
    const auto place = static_cast<std::uint32_t>(sets_.place_for(set, standing.place));
    const access::CoverSet off = standing.off & sets_.facts(set).wanted;
    const std::uint64_t hash = hash_of(set, place, off);
    const StateId known = table_.find(hash, [&](StateId id) {
        return states_[id].set == set && states_[id].place == place && states_[id].off == off;
    });
    if (known != IndexTable::none) return known;
    const auto id = static_cast<StateId>(states_.size());
    states_.push_back({set, place, off, bound(set, {place, off}), unknown});
    table_.insert(hash, id, [&](StateId other) {
        return hash_of(states_[other].set, states_[other].place, states_[other].off);
    });
    finish_trivial(id);
    return id;
}

// Every fault has to be walked to, uncovered and seen, whatever is read on the way.
double Search::reaching(SetId set, const Standing& standing) const {
    double minutes = sets_.facts(set).look_minutes;
    for (const WeighedPocket& own : sets_.pockets(set)) {
        const Pocket& pocket = model_.pockets[own.pocket];
        minutes += own.weight * (model_.way(standing.place, pocket.place) + model_.workshop.open(pocket.need, standing.off));
    }
    return minutes;
}

double Search::bound(SetId set, const Standing& standing) const {
    return reaching(set, standing) + sets_.facts(set).least_minutes;
}

bool Search::may_lay_bare(SetId set) const {
    const Facts& facts = sets_.facts(set);
    return !model_.isolating && (facts.elements <= exact_group || facts.tests.count == 0);
}

std::vector<Member> Search::members(SetId set) const {
    std::vector<Member> group;
    std::vector<std::uint32_t> slot(model_.bare.size(), IndexTable::none);
    sets_.for_each(set, [&](std::size_t s) {
        const Suspect& suspect = model_.suspects[s];
        if (slot[suspect.element] == IndexTable::none) {
            slot[suspect.element] = static_cast<std::uint32_t>(group.size());
            group.push_back({suspect.element, 0});
        }
        group[slot[suspect.element]].weight += suspect.weight;
    });
    std::sort(group.begin(), group.end(), [](const Member& a, const Member& b) { return a.element < b.element; });
    return group;
}

// One element left, or nothing more to find out: no choice, so no expansion.
bool Search::finish_trivial(StateId id) {
    State& state = states_[id];
    const Facts& facts = sets_.facts(state.set);
    if (model_.isolating) {
        if (facts.tests.count != 0) return false;
        state.lower = 0;
        state.action = done;
        return true;
    }
    if (facts.elements != 1) return false;
    const WeighedPocket own = sets_.pockets(state.set).front();
    const Pocket& pocket = model_.pockets[own.pocket];
    state.lower = facts.look_minutes + facts.weight * (model_.workshop.travel(state.place, pocket.place) +
                                                       model_.workshop.open(pocket.need, state.off));
    state.action = lay_bare;
    return true;
}

double Search::minutes_now(SetId set, const Standing& standing, const PlannedTest& test) const {
    return sets_.facts(set).weight * model_.workshop.reach(test.site, standing.place, standing.off);
}

StateId Search::after(const Standing& standing, const PlannedTest& test, SetId child) {
    return state(child, {test.site.place, standing.off | test.site.need});
}

void Search::settle(StateId id, double budget) {
    const auto settled = [&] { return solved(id) || states_[id].lower >= budget || exhausted(); };
    if (settled()) return;
    if (sets_.facts(states_[id].set).families > 1) {
        settle_families(id, budget);
        if (settled()) return;
    }
    expand(id, budget);
}

// Being told for nothing which family the fault belongs to cannot make a plan dearer.
void Search::settle_families(StateId id, double budget) {
    const Standing standing{states_[id].place, states_[id].off};
    const Stretch parts = sets_.parts(states_[id].set);
    double lower = 0;
    for (std::uint32_t p = 0; p < parts.count; ++p) lower += states_[state(sets_.part(parts.first + p), standing)].lower;
    for (std::uint32_t p = 0; p < parts.count && lower < budget; ++p) {
        const StateId part = state(sets_.part(parts.first + p), standing);
        const double before = states_[part].lower;
        settle(part, budget - (lower - before));
        lower += states_[part].lower - before;
    }
    states_[id].lower = std::max(states_[id].lower, lower);
}

// Best first by lower bound, which is sharpened before a test is tried.
void Search::expand(StateId id, double budget) {
    ++expansions_;
    Outlook outlook;
    const double slack = rounding * sets_.facts(states_[id].set).weight;
    for (std::vector<Candidate> heap = candidates(id); !heap.empty();) {
        std::pop_heap(heap.begin(), heap.end());
        Candidate candidate = heap.back();
        heap.pop_back();
        const double enough = std::min(outlook.best, budget);
        if (candidate.lower >= enough - slack) {
            outlook.others = std::min(outlook.others, candidate.lower);
            break;
        }
        if (candidate.worked_out) {
            try_test(id, candidate, enough, outlook);
        } else if (work_out(id, candidate)) {
            heap.push_back(candidate);
            std::push_heap(heap.begin(), heap.end());
        }
    }
    if (may_lay_bare(states_[id].set)) try_group(id, std::min(outlook.best, budget), outlook);
    State& state = states_[id];
    if (outlook.best <= outlook.others + slack) {
        state.lower = outlook.best;
        state.action = outlook.action;
    } else {
        state.lower = std::max(state.lower, std::min(outlook.best, outlook.others));
    }
}

std::vector<Search::Candidate> Search::candidates(StateId id) {
    const SetId set = states_[id].set;
    const Standing standing{states_[id].place, states_[id].off};
    const Stretch splits = sets_.splits(set);
    const Facts& facts = sets_.facts(set);
    const double rest = std::max(0.0, facts.least_minutes - facts.weight * model_.step_minutes);
    pocket_base_.assign(model_.pockets.size(), -1);
    std::vector<Candidate> heap;
    heap.reserve(splits.count);
    for (std::uint32_t index = splits.first; index < splits.first + splits.count; ++index) {
        if (sets_.split(index).superfluous) continue;
        const PlannedTest& test = model_.tests[sets_.split(index).test];
        double& base = pocket_base_[test.pocket];
        if (base < 0) base = rest + reaching(set, {test.site.place, standing.off | test.site.need});
        heap.push_back({minutes_now(set, standing, test) + base, index, false});
    }
    std::make_heap(heap.begin(), heap.end());
    return heap;
}

// False when the test turns out to be superfluous.
bool Search::work_out(StateId id, Candidate& candidate) {
    const Standing standing{states_[id].place, states_[id].off};
    const Split split = sets_.work_out(states_[id].set, candidate.split);
    if (split.superfluous) return false;
    const PlannedTest& test = model_.tests[split.test];
    double lower = minutes_now(states_[id].set, standing, test);
    for (std::uint32_t c = 0; c < split.children.count; ++c)
        lower += states_[after(standing, test, sets_.child(split.children.first + c))].lower;
    candidate.lower = std::max(candidate.lower, lower);
    candidate.worked_out = true;
    return true;
}

void Search::try_test(StateId id, const Candidate& candidate, double budget, Outlook& outlook) {
    const Standing standing{states_[id].place, states_[id].off};
    const Split split = sets_.split(candidate.split);
    const PlannedTest& test = model_.tests[split.test];
    const auto child = [&](std::uint32_t c) { return after(standing, test, sets_.child(split.children.first + c)); };
    double total = minutes_now(states_[id].set, standing, test);
    for (std::uint32_t c = 0; c < split.children.count; ++c) total += states_[child(c)].lower;
    bool exact = true;
    for (std::uint32_t c = 0; c < split.children.count; ++c) {
        const StateId next = child(c);
        const double before = states_[next].lower;
        if (total < budget) settle(next, budget - (total - before));
        total += states_[next].lower - before;
        exact = exact && solved(next);
    }
    if (exact && total < outlook.best) {
        outlook.best = total;
        outlook.action = static_cast<std::int32_t>(candidate.split);
    } else if (!exact) {
        outlook.others = std::min(outlook.others, total);
    }
}

void Search::try_group(StateId id, double budget, Outlook& outlook) {
    const Standing standing{states_[id].place, states_[id].off};
    const std::vector<Member> group = members(states_[id].set);
    const double least = least_minutes_to_lay_bare(model_, group, standing);
    if (least >= budget && sets_.facts(states_[id].set).tests.count != 0) {
        outlook.others = std::min(outlook.others, least);
        return;
    }
    const Order order = order_to_lay_bare(model_, group, standing);
    if (order.least < outlook.best) {
        outlook.best = order.least;
        outlook.action = lay_bare;
    }
}

Plan Search::plan(StateId id) {
    const State state = states_[id];
    const Standing standing{state.place, state.off};
    if (state.action == done) return {};
    if (state.action == lay_bare) {
        const Order order = order_to_lay_bare(model_, members(state.set), standing);
        return {order.minutes, order.worst};
    }
    const Split split = sets_.split(static_cast<std::uint32_t>(state.action));
    const PlannedTest& test = model_.tests[split.test];
    Plan whole{minutes_now(state.set, standing, test), 0};
    for (std::uint32_t c = 0; c < split.children.count; ++c) {
        const Plan rest = plan(after(standing, test, sets_.child(split.children.first + c)));
        whole.minutes += rest.minutes;
        whole.worst = std::max(whole.worst, rest.worst);
    }
    whole.worst += model_.workshop.reach(test.site, standing.place, standing.off);
    return whole;
}

}  // namespace halfsplit::plan
