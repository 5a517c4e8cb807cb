#include "plan/desk.hpp"

#include <algorithm>

namespace halfsplit::plan {

using access::Standing;

namespace {

std::vector<double> weights_of(const Model& model) {
    std::vector<double> weights;
    for (const Suspect& suspect : model.suspects) weights.push_back(suspect.weight);
    return weights;
}

bool holds(const std::vector<Word>& mask, std::size_t suspect) {
    return (mask[suspect / word_bits] >> suspect % word_bits & 1U) != 0;
}

std::vector<double> doubted(const Model& model, const std::vector<Word>& likelier, double factor) {
    std::vector<double> weights = weights_of(model);
    for (std::size_t s = 0; s < weights.size(); ++s)
        if (!holds(likelier, s)) weights[s] *= factor;
    return weights;
}

// What a suspect goes on to is as likely as that one.
std::vector<Word> with_what_follows(const Model& model, std::vector<Word> mask) {
    for (std::size_t s = 0; s < model.suspects.size(); ++s) {
        const std::uint32_t then = model.suspects[s].then;
        if (then == IndexTable::none) continue;
        const Word bit = Word{1} << then % word_bits;
        holds(mask, s) ? mask[then / word_bits] |= bit : mask[then / word_bits] &= ~bit;
    }
    return mask;
}

std::vector<Word> with_the_others(const Model& model, std::vector<Word> mask) {
    mask.resize(2 * model.words, 0);
    for (std::size_t s = 0; s < model.suspects.size(); ++s)
        if (!holds(mask, s)) mask[model.words + s / word_bits] |= Word{1} << s % word_bits;
    return mask;
}

}  // namespace

Desk::Desk(Ground& ground, const Limits& limits)
    : ground_(ground),
      weights_(ground.model, ground.sets, weights_of(ground.model)),
      search_(ground.model, ground.sets, weights_, ground.model.family_masks, limits) {}

Desk::Desk(Desk& before, const std::vector<Word>& likelier, double factor, const Limits& limits)
    : ground_(before.ground_),
      weights_(ground_.model, ground_.sets,
               doubted(ground_.model, with_what_follows(ground_.model, likelier), factor)),
      search_(ground_.model, ground_.sets, weights_,
              with_the_others(ground_.model, with_what_follows(ground_.model, likelier)), limits,
              {&before.search_, factor}) {}

void Desk::settle(SetId set, const Standing& standing, double budget) {
    search_.settle(search_.state(set, standing), budget * weight(set));
}

double Desk::lower_bound(SetId set, const Standing& standing) {
    return search_.lower(search_.state(set, standing)) / weight(set);
}

Plan Desk::value(SetId set, const Standing& standing) {
    const StateId root = search_.state(set, standing);
    if (search_.solved(root)) {
        const Plan plan = search_.plan(root);
        return {plan.minutes / weight(set), plan.worst};
    }
    Plan best = fallback().follow(set, standing);
    for (const Beginning& beginning : beginnings(set, standing)) {
        if (!beginning.settled) continue;
        const Plan plan = best_known(set, standing, beginning);
        if (plan.minutes < best.minutes) best = plan;
    }
    return {best.minutes / weight(set), best.worst};
}

Move Desk::move(SetId set, const Standing& standing) {
    const StateId root = search_.state(set, standing);
    if (search_.solved(root)) return search_.move(root);
    if (fallback().lays_bare(set, standing)) return {Step::LayBare, 0, order(set, standing).elements};
    return {Step::Test, picked_by_rule(set, standing), {}};
}

Order Desk::order(SetId set, const Standing& standing) const {
    return order_to_lay_bare(ground_.model, weights_.members(set), standing);
}

std::vector<Beginning> Desk::tests(SetId set, const Standing& standing) {
    std::vector<Beginning> result;
    SuspectSets& sets = ground_.sets;
    const Stretch splits = sets.splits(set);
    for (std::uint32_t s = 0; s < splits.count; ++s) {
        const Split split = sets.work_out(set, splits.first + s);
        if (split.superfluous) continue;
        const PlannedTest& test = ground_.model.tests[split.test];
        Beginning beginning;
        beginning.test = split.test;
        beginning.now = search_.minutes_now(set, standing, test);
        for (std::uint32_t c = 0; c < split.children.count; ++c) {
            beginning.left.push_back(sets.child(split.children.first + c));
            beginning.next.push_back(search_.after(standing, test, beginning.left.back()));
        }
        settle(beginning, 0);
        result.push_back(std::move(beginning));
    }
    return result;
}

std::vector<Beginning> Desk::beginnings(SetId set, const Standing& standing) {
    std::vector<Beginning> result = tests(set, standing);
    if (search_.may_look(set))
        add_looks(set, standing, result);
    else if (search_.may_lay_bare(set))
        add_group(set, standing, result);
    return result;
}

std::vector<Beginning> Desk::single_steps(SetId set, const Standing& standing) {
    std::vector<Beginning> result = tests(set, standing);
    const Shape& shape = ground_.sets.shape(set);
    if (ground_.model.isolating || (shape.elements == 1 && !shape.goes_on)) return result;
    if (!shape.goes_on && shape.tests.count == 0 && shape.elements > exact_group)
        add_group(set, standing, result);
    else
        add_looks(set, standing, result);
    return result;
}

void Desk::add_group(SetId set, const Standing& standing, std::vector<Beginning>& result) {
    Beginning beginning;
    beginning.lay_bare = beginning.settled = true;
    beginning.lower = order(set, standing).least;
    result.push_back(std::move(beginning));
}

void Desk::add_looks(SetId set, const Standing& standing, std::vector<Beginning>& result) {
    for (const Member& member : weights_.members(set)) {
        Beginning beginning;
        beginning.lay_bare = true;
        beginning.element = member.element;
        beginning.now = search_.minutes_now(set, standing, ground_.model.bare[member.element]);
        for (const StateId next : search_.after_look(set, standing, member.element)) {
            beginning.next.push_back(next);
            beginning.left.push_back(search_.set_of(next));
        }
        settle(beginning, 0);
        result.push_back(std::move(beginning));
    }
}

void Desk::settle(Beginning& beginning, double budget) {
    double total = beginning.now;
    for (const StateId next : beginning.next) total += search_.lower(next);
    beginning.settled = true;
    for (const StateId next : beginning.next) {
        const double before = search_.lower(next);
        if (total < budget) search_.settle(next, budget - (total - before));
        total += search_.lower(next) - before;
        beginning.settled = beginning.settled && search_.solved(next);
    }
    beginning.lower = total;
}

Plan Desk::best_known(SetId set, const Standing& standing, const Beginning& beginning,
                      RulePlan::Stopping stopping) {
    if (beginning.lays_group_bare()) {
        const Order looks = order(set, standing);
        return {looks.minutes, looks.worst};
    }
    const access::Site& site = site_of(beginning);
    Plan whole{beginning.now, 0};
    for (std::size_t c = 0; c < beginning.next.size(); ++c) {
        const StateId next = beginning.next[c];
        const Plan rest =
            search_.solved(next)
                ? search_.plan(next)
                : fallback(stopping).follow(beginning.left[c], {site.place, standing.off | site.need});
        whole.minutes += rest.minutes;
        whole.worst = std::max(whole.worst, rest.worst);
    }
    whole.worst += ground_.model.workshop.reach(site, standing.place, standing.off);
    return whole;
}

Choice Desk::as_choice(SetId set, const Standing& standing, const Beginning& beginning, const Plan& plan) {
    const double whole = weight(set);
    if (!beginning.lay_bare)
        return {Step::Test, ground_.model.tests[beginning.test].index, beginning.now / whole,
                plan.minutes / whole, plan.worst};
    const std::uint32_t element =
        beginning.element != IndexTable::none ? beginning.element : order(set, standing).elements.front();
    const BareSite& first = ground_.model.bare[element];
    return {Step::LayBare, first.index,
            ground_.model.workshop.reach(first.site, standing.place, standing.off), plan.minutes / whole,
            plan.worst};
}

std::uint32_t Desk::picked_by_rule(SetId set, const Standing& standing) {
    return rule(Rule::InformationPerMinute).pick(set, standing);
}

Choice Desk::follow(SetId set, const Standing& standing, Rule which) {
    const std::uint32_t picked = rule(which).pick(set, standing);
    if (picked == IndexTable::none && ground_.model.isolating) return {};
    Beginning beginning;
    beginning.lay_bare = picked == IndexTable::none;
    if (!beginning.lay_bare) {
        beginning.test = picked;
        beginning.now = search_.minutes_now(set, standing, ground_.model.tests[picked]);
    }
    return as_choice(set, standing, beginning, rule(which).follow(set, standing));
}

}  // namespace halfsplit::plan
