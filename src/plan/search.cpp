#include "plan/search.hpp"

#include "halfsplit/plan/exact.hpp"

#include <algorithm>
#include <utility>

namespace halfsplit::plan {

using access::Standing;

Search::Search(const Model& model, SuspectSets& sets, Weights& weights, std::vector<Word> parts,
               const Limits& limits, const Before& before)
    : model_(model),
      sets_(sets),
      weights_(weights),
      parts_(std::move(parts)),
      most_expansions_(limits.states),
      looks_(limits.looks),
      before_(before),
      may_part_(model.no_detour_is_shorter()) {}

std::uint64_t Search::hash_of(SetId set, std::uint32_t place, access::CoverSet off) {
    const std::uint64_t hash = mix(mix(set, off), place);
    return hash ^ hash >> 32U;
}

std::span<const Word> Search::part(std::size_t index) const {
    return std::span(parts_).subspan(index * model_.words, model_.words);
}

bool Search::meets(SetId set, std::size_t index) const {
    const std::span<const Word> own = sets_.bits(set), mask = part(index);
    for (std::size_t w = 0; w < own.size(); ++w)
        if ((own[w] & mask[w]) != 0) return true;
    return false;
}

bool Search::in_one_part(SetId set) const {
    std::size_t met = 0;
    for (std::size_t p = 0; p < part_count() && met < 2; ++p) met += meets(set, p) ? 1 : 0;
    return met < 2;
}

StateId Search::state(SetId set, const Standing& standing) {
    const auto place = static_cast<std::uint32_t>(sets_.place_for(set, standing.place));
    const access::CoverSet off = standing.off & sets_.shape(set).wanted;
    const std::uint64_t hash = hash_of(set, place, off);
    const StateId known = table_.find(hash, [&](StateId id) {
        return states_[id].set == set && states_[id].place == place && states_[id].off == off;
    });
    if (known != IndexTable::none) return known;
    State fresh{set, place, off, 0, unknown, IndexTable::none};
    if (!finish_trivial(fresh)) {
        const SetWeight& weight = weights_.of(set);
        fresh.lower = reaching(weight, {place, off}) + weight.least_minutes;
        if (before_.search != nullptr && in_one_part(set)) {
            fresh.before = before_.search->state(set, {place, off});
            take_from_before(fresh);
        }
    }
    const auto id = static_cast<StateId>(states_.size());
    states_.push_back(fresh);
    table_.insert(hash, id, [&](StateId other) {
        return hash_of(states_[other].set, states_[other].place, states_[other].off);
    });
    return id;
}

// Every fault has to be walked to, uncovered and seen, whatever is read on the way.
double Search::reaching(const SetWeight& weight, const Standing& standing) const {
    double minutes = weight.look_minutes;
    for (const WeighedPocket& own : weights_.pockets(weight)) {
        const Pocket& pocket = model_.pockets[own.pocket];
        minutes += own.weight * (model_.way(standing.place, pocket.place) +
                                 model_.workshop.open(pocket.need, standing.off));
    }
    return minutes;
}

bool Search::may_lay_bare(SetId set) const {
    const Shape& shape = sets_.shape(set);
    return !model_.isolating && !shape.goes_on && (shape.elements <= exact_group || shape.tests.count == 0);
}

// One element left, or nothing more to find out: no choice, so no expansion.
bool Search::finish_trivial(State& state) {
    const Shape& shape = sets_.shape(state.set);
    if (model_.isolating) {
        if (shape.tests.count == 0) state.action = done;
    } else if (shape.elements == 1 && !shape.goes_on) {
        const SetWeight& weight = weights_.of(state.set);
        const Pocket& pocket = model_.pockets[weights_.pockets(weight).front().pocket];
        state.lower =
            weight.look_minutes + weight.weight * (model_.workshop.travel(state.place, pocket.place) +
                                                   model_.workshop.open(pocket.need, state.off));
        state.action = lay_bare;
    }
    return state.action != unknown;
}

void Search::take_from_before(State& state) {
    const double minutes = scale(state.set) * before_.search->lower(state.before);
    const bool known = before_.search->solved(state.before);
    state.lower = known ? minutes : std::max(state.lower, minutes);
    if (known) state.action = as_before;
}

double Search::minutes_now(SetId set, const Standing& standing, const PlannedTest& test) {
    return weights_.of(set).weight * model_.workshop.reach(test.site, standing.place, standing.off);
}

double Search::minutes_now(SetId set, const Standing& standing, const BareSite& look) {
    return weights_.of(set).weight * model_.workshop.reach(look.site, standing.place, standing.off);
}

AfterLook Search::after_look(SetId set, const Standing& standing, std::uint32_t element) {
    const access::Site& site = model_.bare[element].site;
    const Standing then{site.place, standing.off | site.need};
    AfterLook after;
    for (const SetId left : {sets_.without(set, element), sets_.going_on(set, element)})
        if (left != IndexTable::none) after.states[after.count++] = state(left, then);
    return after;
}

// What no test splits is a group, and its order is looked for by itself.
bool Search::may_look(SetId set) const {
    const Shape& shape = sets_.shape(set);
    if (model_.isolating || shape.goes_on) return shape.goes_on;
    return looks_ == Looks::AnyTime && shape.elements > 1 && shape.tests.count != 0;
}

StateId Search::after(const Standing& standing, const PlannedTest& test, SetId child) {
    return state(child, {test.site.place, standing.off | test.site.need});
}

void Search::settle(StateId id, double budget) {
    const auto settled = [&] { return solved(id) || states_[id].lower >= budget || exhausted(); };
    if (settled()) return;
    if (states_[id].before != IndexTable::none) {
        before_.search->settle(states_[id].before, budget / scale(states_[id].set));
        take_from_before(states_[id]);
        return;
    }
    settle_parts(id, budget);
    if (!settled()) expand(id, budget);
}

// Being told for nothing in which part the fault is cannot make a plan dearer.
void Search::settle_parts(StateId id, double budget) {
    const Standing standing{states_[id].place, states_[id].off};
    std::vector<StateId> parts;
    double lower = 0;
    for (const SetId inside : parts_of(states_[id].set)) {
        parts.push_back(state(inside, standing));
        lower += states_[parts.back()].lower;
    }
    for (const StateId one : parts) {
        if (lower >= budget) break;
        const double before = states_[one].lower;
        settle(one, budget - (lower - before));
        lower += states_[one].lower - before;
    }
    states_[id].lower = std::max(states_[id].lower, lower);
}

// A look or a test that tells nothing of a part can be left out of a plan for that part, but where a detour
// is shorter than the way it may have been worth its while as a detour.
std::vector<SetId> Search::parts_of(SetId set) {
    std::vector<SetId> parts;
    if (!may_part_) return parts;
    for (std::size_t p = 0; p < part_count(); ++p) {
        const SetId inside = sets_.within(set, part(p));
        if (inside == set) return halves_of(set);
        if (inside != IndexTable::none) parts.push_back(inside);
    }
    return parts;
}

// By element: neighbours in a problem are mostly neighbours on the bus, and those are what is dear to tell
// apart.
std::vector<SetId> Search::halves_of(SetId set) {
    const Shape& shape = sets_.shape(set);
    if (model_.isolating || shape.goes_on || shape.elements < least_halved) return {};
    const std::vector<Member> members = weights_.members(set);
    const std::uint32_t middle = members[members.size() / 2].element;
    std::vector<Word> lower(model_.words, 0), upper(model_.words, 0);
    sets_.for_each(set, [&](std::size_t s) {
        std::vector<Word>& half = model_.suspects[s].element < middle ? lower : upper;
        half[s / word_bits] |= Word{1} << s % word_bits;
    });
    const SetId first = sets_.intern(lower, set);
    return {first, sets_.intern(upper, set)};
}

// Best first by lower bound, which is sharpened before a test is tried.
void Search::expand(StateId id, double budget) {
    ++expansions_;
    Outlook outlook;
    const double slack = rounding * weights_.of(states_[id].set).weight;
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
            candidate.look ? try_look(id, candidate, enough, outlook)
                           : try_test(id, candidate, enough, outlook);
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
    const SetWeight& weight = weights_.of(set);
    const double rest = std::max(0.0, weight.least_minutes - weight.weight * model_.step_minutes);
    pocket_base_.assign(model_.pockets.size(), -1);
    std::vector<Candidate> heap;
    heap.reserve(splits.count);
    for (std::uint32_t index = splits.first; index < splits.first + splits.count; ++index) {
        if (sets_.split(index).superfluous) continue;
        const PlannedTest& test = model_.tests[sets_.split(index).test];
        const double base = base_at(weight, test.pocket, standing.off);
        heap.push_back({minutes_now(set, standing, test) + rest + base, index, false, false});
    }
    add_looks(id, heap);
    std::make_heap(heap.begin(), heap.end());
    return heap;
}

// What reaching every suspect takes once one stands there.
double Search::base_at(const SetWeight& weight, std::uint32_t pocket, access::CoverSet off) {
    double& base = pocket_base_[pocket];
    const Pocket& own = model_.pockets[pocket];
    if (base < 0) base = reaching(weight, {own.place, off | own.need});
    return base;
}

void Search::add_looks(StateId id, std::vector<Candidate>& heap) {
    const SetId set = states_[id].set;
    if (!may_look(set)) return;
    const Standing standing{states_[id].place, states_[id].off};
    const SetWeight& weight = weights_.of(set);
    for (const Member& member : weights_.members(set)) {
        const BareSite& look = model_.bare[member.element];
        // Whoever finds the fault is done: the look that ends the hunt is this one.
        const double others = base_at(weight, look.pocket, standing.off) - member.weight * look.site.minutes;
        heap.push_back({minutes_now(set, standing, look) + others, member.element, false, true});
    }
}

// False when the test turns out to be superfluous.
bool Search::work_out(StateId id, Candidate& candidate) {
    const Standing standing{states_[id].place, states_[id].off};
    if (candidate.look) {
        double lower = minutes_now(states_[id].set, standing, model_.bare[candidate.split]);
        for (const StateId next : after_look(states_[id].set, standing, candidate.split))
            lower += states_[next].lower;
        candidate.lower = std::max(candidate.lower, lower);
        candidate.worked_out = true;
        return true;
    }
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

void Search::try_look(StateId id, const Candidate& candidate, double budget, Outlook& outlook) {
    const Standing standing{states_[id].place, states_[id].off};
    const double now = minutes_now(states_[id].set, standing, model_.bare[candidate.split]);
    const AfterLook next = after_look(states_[id].set, standing, candidate.split);
    try_step(now, {next.begin(), next.end()}, first_look - static_cast<std::int32_t>(candidate.split), budget,
             outlook);
}

void Search::try_test(StateId id, const Candidate& candidate, double budget, Outlook& outlook) {
    const Standing standing{states_[id].place, states_[id].off};
    const Split split = sets_.split(candidate.split);
    const PlannedTest& test = model_.tests[split.test];
    const double now = minutes_now(states_[id].set, standing, test);
    std::vector<StateId> next;
    for (std::uint32_t c = 0; c < split.children.count; ++c)
        next.push_back(after(standing, test, sets_.child(split.children.first + c)));
    try_step(now, next, static_cast<std::int32_t>(candidate.split), budget, outlook);
}

void Search::try_step(double now, std::span<const StateId> next, std::int32_t action, double budget,
                      Outlook& outlook) {
    double total = now;
    for (const StateId one : next) total += states_[one].lower;
    bool exact = true;
    for (const StateId one : next) {
        const double before = states_[one].lower;
        if (total < budget) settle(one, budget - (total - before));
        total += states_[one].lower - before;
        exact = exact && solved(one);
    }
    if (exact && total < outlook.best) {
        outlook.best = total;
        outlook.action = action;
    } else if (!exact) {
        outlook.others = std::min(outlook.others, total);
    }
}

void Search::try_group(StateId id, double budget, Outlook& outlook) {
    const Standing standing{states_[id].place, states_[id].off};
    const std::vector<Member> group = weights_.members(states_[id].set);
    if (sets_.shape(states_[id].set).tests.count != 0) {
        double least = quick_bound_of_laying_bare(model_, group, standing);
        if (least < budget && group.size() > 3)
            least = std::max(least, bound_of_laying_bare(model_, group, standing));
        if (least >= budget) {
            outlook.others = std::min(outlook.others, least);
            return;
        }
    }
    const Order order = order_to_lay_bare(model_, group, standing);
    if (order.least < outlook.best) {
        outlook.best = order.least;
        outlook.action = lay_bare;
    }
}

Move Search::move(StateId id) const {
    const State& state = states_[id];
    if (state.action == done) return {};
    if (state.action == lay_bare)
        return {Step::LayBare, 0,
                order_to_lay_bare(model_, weights_.members(state.set), {state.place, state.off}).elements};
    if (state.action <= first_look)
        return {Step::LayBare, static_cast<std::uint32_t>(first_look - state.action), {}};
    return {Step::Test, sets_.split(static_cast<std::uint32_t>(state.action)).test, {}};
}

Plan Search::plan(StateId id) {
    const State state = states_[id];
    const Standing standing{state.place, state.off};
    if (state.action == done) return {};
    if (state.action == as_before) {
        const Plan plan = before_.search->plan(state.before);
        return {plan.minutes * scale(state.set), plan.worst};
    }
    if (state.action == lay_bare) {
        const Order order = order_to_lay_bare(model_, weights_.members(state.set), standing);
        return {order.minutes, order.worst};
    }
    if (state.action <= first_look) {
        const auto element = static_cast<std::uint32_t>(first_look - state.action);
        const BareSite& look = model_.bare[element];
        Plan whole{minutes_now(state.set, standing, look), 0};
        for (const StateId next : after_look(state.set, standing, element)) {
            const Plan rest = plan(next);
            whole.minutes += rest.minutes;
            whole.worst = std::max(whole.worst, rest.worst);
        }
        whole.worst += model_.workshop.reach(look.site, standing.place, standing.off);
        return whole;
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
