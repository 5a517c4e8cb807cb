#include "halfsplit/plan/problem.hpp"

#include <cmath>
#include <stdexcept>
#include <string>

namespace halfsplit::plan {

namespace {

std::string member(const char* name, std::size_t index, const char* part = "") {
    return std::string(name) + "[" + std::to_string(index) + "]" + part;
}

[[noreturn]] void refuse(const std::string& where, const char* why) {
    throw std::invalid_argument(where + " " + why);
}

void check_site(const access::Site& site, const access::Workshop& workshop, const char* list,
                std::size_t index) {
    const access::CoverSet covers = workshop.closure(~access::CoverSet{0});
    if (!std::isfinite(site.minutes) || site.minutes < 0)
        refuse(member(list, index, ".minutes"), "is negative or not finite");
    if (site.place >= workshop.places())
        refuse(member(list, index, ".place"), "is a place that is not there");
    if ((site.need & ~covers) != 0) refuse(member(list, index, ".need"), "names a cover that is not there");
}

void check_test(const Problem& problem, std::size_t index) {
    const Test& test = problem.tests[index];
    check_site(test.site, problem.workshop, "tests", index);
    if (test.outcome.size() != problem.hypotheses.size())
        refuse(member("tests", index, ".outcome"), "must have one entry for each hypothesis");
    if (!(test.slip >= 0 && test.slip <= 1))
        refuse(member("tests", index, ".slip"), "is not a chance from 0 to 1");
    if (test.slip_outcome < 0 || test.slip_outcome >= most_outcomes)
        refuse(member("tests", index, ".slip_outcome"), "is negative or too large");
}

void check_going_on(const Problem& problem, std::size_t index, std::vector<bool>& gone_to) {
    const std::vector<Hypothesis>& all = problem.hypotheses;
    const std::size_t then = all[index].then;
    if (then == cured) return;
    const std::string where = member("hypotheses", index, ".then");
    if (then >= all.size()) refuse(where, "is a hypothesis that is not there");
    if (all[then].then != cured) refuse(where, "is a hypothesis that itself goes on");
    if (all[index].probability > 0 && all[then].probability > 0)
        refuse(where, "is a hypothesis with a probability of its own");
    if (gone_to[then]) refuse(where, "is a hypothesis that another goes on to as well");
    gone_to[then] = true;
}

void check_hypotheses(const Problem& problem) {
    double sum = 0;
    std::vector<bool> gone_to(problem.hypotheses.size());
    for (std::size_t h = 0; h < problem.hypotheses.size(); ++h) {
        const Hypothesis& hypothesis = problem.hypotheses[h];
        if (!std::isfinite(hypothesis.probability) || hypothesis.probability < 0)
            refuse(member("hypotheses", h, ".probability"), "is negative or not finite");
        if (!problem.bare.empty() && hypothesis.element >= problem.bare.size())
            refuse(member("hypotheses", h, ".element"), "is an element that `bare` has no entry for");
        check_going_on(problem, h, gone_to);
        sum += hypothesis.probability;
    }
    if (!(sum > 0 && std::isfinite(sum)))
        refuse("hypotheses", "have probabilities that sum to nothing, or to no finite number");
}

}  // namespace

std::vector<bool> follows_another(const Problem& problem) {
    std::vector<bool> result(problem.hypotheses.size());
    for (std::size_t h = 0; h < result.size(); ++h)
        if (goes_on_to(problem, h) != cured) result[goes_on_to(problem, h)] = true;
    return result;
}

void require_sound(const Problem& problem) {
    if (problem.start.place >= problem.workshop.places())
        refuse("start.place", "is a place that is not there");
    check_hypotheses(problem);
    for (std::size_t test = 0; test < problem.tests.size(); ++test) check_test(problem, test);
    for (std::size_t element = 0; element < problem.bare.size(); ++element)
        check_site(problem.bare[element], problem.workshop, "bare", element);
}

}  // namespace halfsplit::plan
