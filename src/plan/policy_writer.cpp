#include "plan/policy_writer.hpp"

#include <algorithm>
#include <map>

namespace halfsplit::plan {

using access::Standing;

namespace {

double reach(const Problem& problem, const access::Site& site, const Standing& standing) {
    return problem.workshop.reach(site, standing.place, standing.off);
}

Standing at(const access::Site& site, const Standing& standing) {
    return {site.place, standing.off | site.need};
}

}  // namespace

PolicyWriter::PolicyWriter(const Problem& problem, const Outline& outline, Ground& ground, Choose choose)
    : problem_(problem), outline_(outline), ground_(ground), choose_(std::move(choose)) {
    double total = 0;
    for (const Hypothesis& hypothesis : problem.hypotheses) total += hypothesis.probability;
    for (const Hypothesis& hypothesis : problem.hypotheses) prior_.push_back(hypothesis.probability / total);
    const std::vector<bool> follows = follows_another(problem);
    for (std::size_t h = 0; h < prior_.size(); ++h) {
        const double probability = problem.hypotheses[h].probability;
        if (!follows[h] || probability > 0) at_first_.push_back(h);
        const std::size_t then = goes_on_to(problem, h);
        if (then != cured && probability > 0) prior_[then] = probability / total;
    }
}

Policy PolicyWriter::write() {
    policy_.minutes.assign(problem_.hypotheses.size(), 0);
    write(choose_(ground_.sets.all(), problem_.start, 0), problem_.start, at_first_, 0);
    sum_up();
    return std::move(policy_);
}

void PolicyWriter::sum_up() {
    Choice& best = policy_.solution.best;
    for (const std::size_t h : at_first_) {
        if (prior_[h] <= 0) continue;
        best.expected_minutes += prior_[h] * policy_.minutes[h];
        best.worst_minutes = std::max(best.worst_minutes, policy_.minutes[h]);
    }
    if (policy_.steps.empty()) return;
    const PolicyStep& first = policy_.steps.front();
    best.step = first.step;
    best.index = first.index;
    best.minutes_now = first.minutes;
}

// Writes what is done with these suspects, `spent` minutes into the hunt; where in the policy it begins.
std::size_t PolicyWriter::write(const Move& move, const Standing& standing,
                                const std::vector<std::size_t>& suspects, double spent) {
    if (move.step == Step::Test) return write_test(move.index, standing, suspects, spent);
    if (move.step == Step::LayBare && !move.group.empty())
        return write_group(move.group, standing, suspects, spent);
    if (move.step == Step::LayBare) return write_look(move.index, standing, suspects, spent);
    for (const std::size_t h : suspects) policy_.minutes[h] = spent;
    return Policy::over;
}

std::size_t PolicyWriter::begin(Step step, std::size_t index, double minutes,
                                const std::vector<std::size_t>& suspects) {
    policy_.steps.push_back({step, index, minutes, chance_of(suspects), {}, suspects});
    return policy_.steps.size() - 1;
}

std::size_t PolicyWriter::write_test(std::uint32_t index, const Standing& standing,
                                     const std::vector<std::size_t>& suspects, double spent) {
    const PlannedTest& test = ground_.model.tests[index];
    const Outcomes& outcome = problem_.tests[test.index].outcome;
    const double minutes = reach(problem_, test.site, standing);
    const std::size_t own = begin(Step::Test, test.index, minutes, suspects);
    std::map<int, std::vector<std::size_t>> left;
    for (const std::size_t h : suspects) left[outcome[h]].push_back(h);
    for (const auto& [shown, hypotheses] : left)
        add_branch(own, shown, hypotheses, at(test.site, standing), spent + minutes);
    return own;
}

std::size_t PolicyWriter::write_look(std::uint32_t element, const Standing& standing,
                                     const std::vector<std::size_t>& suspects, double spent) {
    const access::Site& site = ground_.model.bare[element].site;
    const double minutes = reach(problem_, site, standing);
    const auto [own, others] = look(element, standing, suspects, spent);
    if (!others.empty()) add_branch(own, 1, others, at(site, standing), spent + minutes);
    return own;
}

// The whole group, in its order.
std::size_t PolicyWriter::write_group(const std::vector<std::uint32_t>& elements, Standing standing,
                                      std::vector<std::size_t> suspects, double spent) {
    const std::size_t first = policy_.steps.size();
    std::size_t last = first;
    for (const std::uint32_t element : elements) {
        const access::Site& site = ground_.model.bare[element].site;
        const double minutes = reach(problem_, site, standing);
        const auto [own, others] = look(element, standing, suspects, spent);
        if (!others.empty()) add_branch(own, {1, chance_of(others), policy_.steps.size()});
        suspects = others;
        last = own;
        spent += minutes;
        standing = at(site, standing);
    }
    for (PolicyStep::Branch& branch : policy_.steps[last].branches)
        if (branch.outcome == 1) branch.next = Policy::over;
    return first;
}

// A look as a step, and on from it when it is the fault; with what it leaves when it is not.
std::pair<std::size_t, std::vector<std::size_t>> PolicyWriter::look(std::uint32_t element,
                                                                    const Standing& standing,
                                                                    const std::vector<std::size_t>& suspects,
                                                                    double spent) {
    const std::size_t index = ground_.model.bare[element].index;
    const access::Site& site = ground_.model.bare[element].site;
    const double minutes = reach(problem_, site, standing);
    const std::size_t own = begin(Step::LayBare, index, minutes, suspects);
    std::vector<std::size_t> ending, going_on, others;
    for (const std::size_t h : suspects) {
        const Hypothesis& hypothesis = problem_.hypotheses[h];
        (hypothesis.element != index ? others : hypothesis.then == cured ? ending : going_on).push_back(h);
    }
    for (const std::size_t h : ending) policy_.minutes[h] = spent + minutes;
    if (!ending.empty() || going_on.empty()) add_branch(own, {0, chance_of(ending), Policy::over});
    if (!going_on.empty()) go_on(own, going_on, at(site, standing), spent + minutes);
    return {own, std::move(others)};
}

// Found and mended, and not cured.
void PolicyWriter::go_on(std::size_t own, const std::vector<std::size_t>& guilty, const Standing& then,
                         double spent) {
    std::vector<std::size_t> next;
    for (const std::size_t h : guilty) next.push_back(problem_.hypotheses[h].then);
    add_branch(own, 2, next, then, spent);
    for (const std::size_t h : guilty) policy_.minutes[h] = policy_.minutes[problem_.hypotheses[h].then];
}

void PolicyWriter::add_branch(std::size_t own, int outcome, const std::vector<std::size_t>& left,
                              const Standing& then, double spent) {
    const SetId set = set_of(left);
    const std::size_t next =
        set == IndexTable::none ? Policy::over : write(choose_(set, then, spent), then, left, spent);
    add_branch(own, {outcome, chance_of(left), next});
}

void PolicyWriter::add_branch(std::size_t own, const PolicyStep::Branch& branch) {
    std::vector<PolicyStep::Branch>& branches = policy_.steps[own].branches;
    branches.insert(std::find_if(branches.begin(), branches.end(),
                                 [&](const auto& other) { return other.outcome > branch.outcome; }),
                    branch);
}

// None where all of them have no chance.
SetId PolicyWriter::set_of(const std::vector<std::size_t>& hypotheses) {
    std::vector<char> wanted(outline_.kinds.size(), 0);
    for (const std::size_t h : hypotheses) wanted[outline_.kind_of[h]] = 1;
    std::vector<Word> bits(ground_.model.words, 0);
    bool any = false;
    for (std::size_t s = 0; s < ground_.model.suspects.size(); ++s) {
        if (wanted[ground_.model.kind[s]] == 0) continue;
        bits[s / word_bits] |= Word{1} << s % word_bits;
        any = true;
    }
    return any ? ground_.sets.intern(bits) : IndexTable::none;
}

double PolicyWriter::chance_of(const std::vector<std::size_t>& hypotheses) const {
    double sum = 0;
    for (const std::size_t h : hypotheses) sum += prior_[h];
    return sum;
}

}  // namespace halfsplit::plan
