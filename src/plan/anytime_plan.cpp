#include "plan/anytime_plan.hpp"

#include "plan/search_reach.hpp"

#include <algorithm>
#include <utility>

namespace halfsplit::plan {

using access::Standing;

namespace {

// Among how many tests the first is chosen.
constexpr std::size_t most_tried = 8;
// And among how many looks.
constexpr std::size_t most_looked_at = 4;
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
    const First& first = known_[id].first;
    if (first.test != IndexTable::none) return {Step::Test, first.test, {}};
    if (first.element != IndexTable::none) return {Step::LayBare, first.element, {}};
    return {Step::LayBare, 0, order_to_lay_bare(model_, weights_.members(set), standing).elements};
}

// `granted`: the elements have been given their share of the states already.
StateId AnytimePlan::work_out(SetId set, const Standing& standing, bool granted) {
    const StateId id = search_.state(set, standing);
    if (search_.solved(id) || (id < known_.size() && known_[id].worked_out)) return id;
    const StateId of_whole = whole_.state(set, standing);
    const bool known_before = whole_.solved(of_whole);
    if (!known_before && search_to_the_end(set, id, granted)) return id;
    const Known known = known_before               ? Known{true, whole_.plan(of_whole), {}}
                        : sets_.shape(set).goes_on ? by_rule_alone(set, standing)
                                                   : chosen(set, standing, granted);
    if (known_.size() <= id) known_.resize(id + 1);
    known_[id] = known;
    return id;
}

AnytimePlan::First AnytimePlan::choose(SetId set, const Standing& standing) {
    if (weighed_ >= words_a_state * static_cast<double>(states_)) return {rule_.pick(set, standing)};
    First best;
    double least = Search::infinity;
    const auto consider = [&](const First& first) {
        const double minutes = by_rule_after(set, standing, first);
        if (minutes >= least) return;
        least = minutes;
        best = first;
    };
    for (const std::uint32_t test : rule_.shortlist(set, standing, most_tried)) consider({test});
    for (const std::uint32_t element : worth_a_look(set, standing)) consider({IndexTable::none, element});
    return best;
}

double AnytimePlan::by_rule_after(SetId set, const Standing& standing, const First& first) {
    const access::Site& site = site_of(first);
    double minutes = weights_.of(set).weight * model_.workshop.reach(site, standing.place, standing.off);
    for (const SetId left : left_by(set, first))
        minutes += by_rule(left, {site.place, standing.off | site.need});
    return minutes;
}

// Likeliest for the minutes first.
std::vector<std::uint32_t> AnytimePlan::worth_a_look(SetId set, const Standing& standing) const {
    std::vector<std::uint32_t> elements;
    if (!search_.may_look(set)) return elements;
    std::vector<std::pair<double, std::uint32_t>> by_worth;  // minutes for each part of the probability
    for (const Member& member : weights_.members(set)) {
        const access::Site& site = model_.bare[member.element].site;
        by_worth.emplace_back(model_.workshop.reach(site, standing.place, standing.off) / member.weight,
                              member.element);
    }
    std::sort(by_worth.begin(), by_worth.end());
    by_worth.resize(std::min(by_worth.size(), most_looked_at));
    for (const auto& [worth, element] : by_worth) elements.push_back(element);
    return elements;
}

const access::Site& AnytimePlan::site_of(const First& first) const {
    return first.test != IndexTable::none ? model_.tests[first.test].site : model_.bare[first.element].site;
}

std::vector<SetId> AnytimePlan::left_by(SetId set, const First& first) {
    if (first.test != IndexTable::none) return sets_.after(set, model_.tests[first.test]);
    const SetId rest = sets_.without(set, first.element);
    return rest == IndexTable::none ? std::vector<SetId>{} : std::vector<SetId>{rest};
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
    if (!known.first.is_none()) known.plan = follow_with(set, standing, known.first, granted);
    if (known.first.is_none() && model_.isolating) known.plan = {};
    if (!search_.may_lay_bare(set)) return known;
    const Order order = order_to_lay_bare(model_, weights_.members(set), standing);
    if (order.minutes > known.plan.minutes) return known;
    return {true, {order.minutes, order.worst}, {}};
}

// Where the hunt may go on after a find, a choice would have to look beyond that.
AnytimePlan::Known AnytimePlan::by_rule_alone(SetId set, const Standing& standing) {
    const std::uint32_t test = rule_.lays_bare(set, standing) ? IndexTable::none : rule_.pick(set, standing);
    return {true, rule_.follow(set, standing), {test}};
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

Plan AnytimePlan::follow_with(SetId set, const Standing& standing, const First& first, bool granted) {
    const access::Site& site = site_of(first);
    const double minutes = model_.workshop.reach(site, standing.place, standing.off);
    Plan whole{weights_.of(set).weight * minutes, 0};
    for (const SetId left : left_by(set, first)) {
        const Plan rest = value(work_out(left, {site.place, standing.off | site.need}, granted));
        whole.minutes += rest.minutes;
        whole.worst = std::max(whole.worst, rest.worst);
    }
    whole.worst += minutes;
    return whole;
}

}  // namespace halfsplit::plan
