#include "plan/anytime_plan.hpp"

#include "plan/search_reach.hpp"

#include <algorithm>

namespace halfsplit::plan {

using access::Standing;

namespace {

// Among how many tests the first is chosen.
constexpr std::size_t most_tried = 8;
// Words of masks that choosing may go through for each state there is: about as long as an expansion takes.
constexpr double words_a_state = 2000;

}  // namespace

AnytimePlan::AnytimePlan(const Model& model, SuspectSets& sets, Weights& weights, Search& whole,
                         const Limits& limits)
    : model_(model),
      sets_(sets),
      weights_(weights),
      rule_(model, sets, weights, Rule::InformationPerMinute, RulePlan::Stopping::WhereCheaper),
      whole_(whole),
      search_(model, sets, weights, model.family_masks, {0, limits.looks, 0}),
      states_(limits.states),
      states_each_(static_cast<double>(limits.states) / count_elements(model)) {}

Plan AnytimePlan::follow(SetId set, const Standing& standing) {
    return value(work_out(set, standing, false));
}

Move AnytimePlan::move(SetId set, const Standing& standing) {
    const StateId id = work_out(set, standing, false);
    if (search_.solved(id)) return search_.move(id);
    if (known_[id].test != IndexTable::none) return {Step::Test, known_[id].test, {}};
    return {Step::LayBare, 0, order_to_lay_bare(model_, weights_.members(set), standing).elements};
}

// `granted`: the elements have been given their share of the states already.
StateId AnytimePlan::work_out(SetId set, const Standing& standing, bool granted) {
    const StateId id = search_.state(set, standing);
    if (search_.solved(id) || (id < known_.size() && known_[id].worked_out)) return id;
    const StateId of_whole = whole_.state(set, standing);
    const bool known_before = whole_.solved(of_whole);
    if (!known_before && search_to_the_end(set, id, granted)) return id;
    const Known known = known_before               ? Known{true, whole_.plan(of_whole), IndexTable::none}
                        : sets_.shape(set).goes_on ? by_rule_alone(set, standing)
                                                   : chosen(set, standing, granted);
    if (known_.size() <= id) known_.resize(id + 1);
    known_[id] = known;
    return id;
}

std::uint32_t AnytimePlan::choose(SetId set, const Standing& standing) {
    if (weighed_ >= words_a_state * static_cast<double>(states_)) return rule_.pick(set, standing);
    std::uint32_t best = IndexTable::none;
    double least = Search::infinity;
    for (const std::uint32_t index : rule_.shortlist(set, standing, most_tried)) {
        const PlannedTest& test = model_.tests[index];
        const Standing then{test.site.place, standing.off | test.site.need};
        double minutes = search_.minutes_now(set, standing, test);
        for (const SetId child : sets_.after(set, test)) minutes += by_rule(child, then);
        if (minutes >= least) continue;
        least = minutes;
        best = index;
    }
    return best;
}

double AnytimePlan::by_rule(SetId set, const Standing& standing) {
    const StateId id = search_.state(set, standing);
    if (search_.solved(id)) return search_.lower(id);
    if (id < by_rule_.size() && by_rule_[id] >= 0) return by_rule_[id];
    double minutes = Search::infinity;
    weighed_ += static_cast<double>(sets_.tests(set).size() * model_.words);
    const std::uint32_t index = rule_.pick(set, standing);
    if (index != IndexTable::none) {
        const PlannedTest& test = model_.tests[index];
        const Standing then{test.site.place, standing.off | test.site.need};
        minutes = search_.minutes_now(set, standing, test);
        for (const SetId child : sets_.after(set, test)) minutes += by_rule(child, then);
    }
    if (search_.may_lay_bare(set))
        minutes = std::min(minutes, order_to_lay_bare(model_, weights_.members(set), standing).minutes);
    if (by_rule_.size() <= id) by_rule_.resize(id + 1, -1);
    return by_rule_[id] = minutes;
}

AnytimePlan::Known AnytimePlan::chosen(SetId set, const Standing& standing, bool granted) {
    Known known{true, {Search::infinity, 0}, choose(set, standing)};
    if (known.test != IndexTable::none) known.plan = follow_with(set, standing, known.test, granted);
    if (known.test == IndexTable::none && model_.isolating) known.plan = {};
    if (!search_.may_lay_bare(set)) return known;
    const Order order = order_to_lay_bare(model_, weights_.members(set), standing);
    if (order.minutes > known.plan.minutes) return known;
    return {true, {order.minutes, order.worst}, IndexTable::none};
}

// Where the hunt may go on after a find, a choice among tests would have to look beyond that.
AnytimePlan::Known AnytimePlan::by_rule_alone(SetId set, const Standing& standing) {
    const std::uint32_t test = rule_.lays_bare(set, standing) ? IndexTable::none : rule_.pick(set, standing);
    return {true, rule_.follow(set, standing), test};
}

bool AnytimePlan::search_to_the_end(SetId set, StateId id, bool& granted) {
    const std::uint32_t elements = sets_.shape(set).elements;
    if (!granted && likely_expansions(elements) > states_each_ * elements) return false;
    if (!granted) allowance_ = std::min(allowance_ + states_each_ * elements, static_cast<double>(states_));
    granted = true;
    search_.allow(static_cast<std::uint64_t>(allowance_));
    search_.settle(id, Search::infinity);
    return search_.solved(id);
}

Plan AnytimePlan::follow_with(SetId set, const Standing& standing, std::uint32_t index, bool granted) {
    const PlannedTest& test = model_.tests[index];
    const Standing then{test.site.place, standing.off | test.site.need};
    const double minutes = model_.workshop.reach(test.site, standing.place, standing.off);
    Plan whole{weights_.of(set).weight * minutes, 0};
    for (const SetId child : sets_.after(set, test)) {
        const Plan rest = value(work_out(child, then, granted));
        whole.minutes += rest.minutes;
        whole.worst = std::max(whole.worst, rest.worst);
    }
    whole.worst += minutes;
    return whole;
}

}  // namespace halfsplit::plan
