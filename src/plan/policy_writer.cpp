#include "plan/policy_writer.hpp"

#include <algorithm>
#include <map>
#include <numeric>

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
}

Policy PolicyWriter::write() {
    policy_.minutes.assign(problem_.hypotheses.size(), 0);
    std::vector<std::size_t> everything(problem_.hypotheses.size());
    std::iota(everything.begin(), everything.end(), std::size_t{0});
    write(choose_(ground_.sets.all(), problem_.start, 0), problem_.start, everything, 0);
    sum_up();
    return std::move(policy_);
}

void PolicyWriter::sum_up() {
    Choice& best = policy_.solution.best;
    for (std::size_t h = 0; h < prior_.size(); ++h) {
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
    const auto [own, others] = look(element, minutes, suspects, spent);
    if (!others.empty()) add_branch(own, 1, others, at(site, standing), spent + minutes);
    return own;
}

// The whole group, in its order.
std::size_t PolicyWriter::write_group(const std::vector<std::uint32_t>& elements, Standing standing,
                                      std::vector<std::size_t> suspects, double spent) {
    const std::size_t first = policy_.steps.size();
    for (const std::uint32_t element : elements) {
        const access::Site& site = ground_.model.bare[element].site;
        const double minutes = reach(problem_, site, standing);
        const auto [own, others] = look(element, minutes, suspects, spent);
        if (!others.empty())
            policy_.steps[own].branches.push_back({1, chance_of(others), policy_.steps.size()});
        suspects = others;
        spent += minutes;
        standing = at(site, standing);
    }
    if (!suspects.empty()) policy_.steps.back().branches.back().next = Policy::over;
    return first;
}

// A look as a step, with what it leaves when it is not the fault.
std::pair<std::size_t, std::vector<std::size_t>> PolicyWriter::look(std::uint32_t element, double minutes,
                                                                    const std::vector<std::size_t>& suspects,
                                                                    double spent) {
    const std::size_t index = ground_.model.bare[element].index;
    const std::size_t own = begin(Step::LayBare, index, minutes, suspects);
    std::vector<std::size_t> guilty, others;
    for (const std::size_t h : suspects)
        (problem_.hypotheses[h].element == index ? guilty : others).push_back(h);
    for (const std::size_t h : guilty) policy_.minutes[h] = spent + minutes;
    policy_.steps[own].branches.push_back({0, chance_of(guilty), Policy::over});
    return {own, std::move(others)};
}

void PolicyWriter::add_branch(std::size_t own, int outcome, const std::vector<std::size_t>& left,
                              const Standing& then, double spent) {
    const SetId set = set_of(left);
    const std::size_t next =
        set == IndexTable::none ? Policy::over : write(choose_(set, then, spent), then, left, spent);
    policy_.steps[own].branches.push_back({outcome, chance_of(left), next});
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
