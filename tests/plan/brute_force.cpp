#include "plan/brute_force.hpp"

#include "halfsplit/plan/exact.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <tuple>
#include <vector>

namespace halfsplit::plan {

namespace {

using access::CoverSet;
using access::Site;
using Suspects = std::vector<std::size_t>;

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double tie = 1e-9;

// Here `expected` is the sum over the suspects of probability times minutes.
void consider(BruteForce& best, const BruteForce& other, double weight) {
    if (other.expected < best.expected - tie * weight) {
        best = other;
    } else if (other.expected <= best.expected + tie * weight) {
        best.expected = std::min(best.expected, other.expected);
        best.least_worst = std::min(best.least_worst, other.least_worst);
        best.most_worst = std::max(best.most_worst, other.most_worst);
    }
}

class EveryPlan {
  public:
    EveryPlan(const Problem& problem, Looks looks) : problem_(problem), looks_(looks) {
        for (const Hypothesis& own : problem.hypotheses) probability_.push_back(own.probability);
        for (const Hypothesis& own : problem.hypotheses)
            if (own.then != cured && own.probability > 0) probability_[own.then] = own.probability;
    }

    Suspects everything() const {
        Suspects suspects;
        for (std::size_t h = 0; h < problem_.hypotheses.size(); ++h)
            if (problem_.hypotheses[h].probability > 0) suspects.push_back(h);
        return suspects;
    }

    double weight(const Suspects& suspects) const {
        double sum = 0;
        for (const std::size_t h : suspects) sum += probability_[h];
        return sum;
    }

    BruteForce best(const Suspects& suspects, CoverSet off, std::size_t place) {
        const auto key = std::tuple(suspects, off, place);
        if (const auto known = known_.find(key); known != known_.end()) return known->second;
        BruteForce result{infinity, infinity, infinity};
        const std::vector<std::size_t> elements = elements_of(suspects);
        bool any_test = false;
        if (elements.size() > 1 || any_goes_on(suspects))
            for (std::size_t t = 0; t < problem_.tests.size(); ++t) {
                if (outcomes(suspects, t).size() < 2) continue;
                any_test = true;
                consider(result, after(suspects, t, off, place), weight(suspects));
            }
        if (problem_.bare.empty()) {
            if (!any_test) result = {};
        } else if (looks_ == Looks::AnyTime || any_goes_on(suspects)) {
            for (const std::size_t element : elements)
                consider(result, after_look(suspects, element, off, place), weight(suspects));
        } else if (elements.size() <= exact_group || !any_test) {
            lay_bare(suspects, elements, off, place, result);
        }
        return known_[key] = result;
    }

    BruteForce after(const Suspects& suspects, std::size_t test, CoverSet off, std::size_t place) {
        const double minutes = reach(problem_.tests[test].site, off, place);
        std::vector<Suspects> left;
        for (const auto& [outcome, own] : outcomes(suspects, test)) left.push_back(own);
        return with_what_is_left(weight(suspects), minutes, left, off, place);
    }

    BruteForce after_look(const Suspects& suspects, std::size_t element, CoverSet off, std::size_t place) {
        const double minutes = reach(problem_.bare[element], off, place);
        Suspects others;
        std::copy_if(suspects.begin(), suspects.end(), std::back_inserter(others),
                     [&](std::size_t h) { return problem_.hypotheses[h].element != element; });
        return with_what_is_left(weight(suspects), minutes, {others, going_on(suspects, element)}, off,
                                 place);
    }

  private:
    // A step of so many minutes, which leaves these, each by itself.
    BruteForce with_what_is_left(double weight, double minutes, const std::vector<Suspects>& left,
                                 CoverSet off, std::size_t place) {
        BruteForce whole{weight * minutes, 0, 0};
        for (const Suspects& own : left) {
            const BruteForce rest = own.empty() ? BruteForce{} : best(own, off, place);
            whole.expected += rest.expected;
            whole.least_worst = std::max(whole.least_worst, rest.least_worst);
            whole.most_worst = std::max(whole.most_worst, rest.most_worst);
        }
        whole.least_worst += minutes;
        whole.most_worst += minutes;
        return whole;
    }

    bool any_goes_on(const Suspects& suspects) const {
        return std::any_of(suspects.begin(), suspects.end(),
                           [&](std::size_t h) { return problem_.hypotheses[h].then != cured; });
    }

    Suspects going_on(const Suspects& suspects, std::size_t element) const {
        Suspects next;
        for (const std::size_t h : suspects) {
            const Hypothesis& own = problem_.hypotheses[h];
            if (own.element == element && own.then != cured) next.push_back(own.then);
        }
        std::sort(next.begin(), next.end());
        return next;
    }

    // Goes there: `off` and `place` become what they are afterwards.
    double reach(const Site& site, CoverSet& off, std::size_t& place) const {
        const CoverSet need = problem_.workshop.closure(site.need);
        const double minutes =
            problem_.workshop.travel(place, site.place) + problem_.workshop.open(need, off) + site.minutes;
        off |= need;
        place = site.place;
        return minutes;
    }

    std::map<int, Suspects> outcomes(const Suspects& suspects, std::size_t test) const {
        std::map<int, Suspects> left;
        for (const std::size_t h : suspects) left[problem_.tests[test].outcome[h]].push_back(h);
        return left;
    }

    std::vector<std::size_t> elements_of(const Suspects& suspects) const {
        std::vector<std::size_t> elements;
        for (const std::size_t h : suspects) elements.push_back(problem_.hypotheses[h].element);
        std::sort(elements.begin(), elements.end());
        elements.erase(std::unique(elements.begin(), elements.end()), elements.end());
        return elements;
    }

    void lay_bare(const Suspects& suspects, std::vector<std::size_t> elements, CoverSet off,
                  std::size_t place, BruteForce& result) const {
        do {
            CoverSet now_off = off;
            std::size_t now_at = place;
            double minutes = 0, expected = 0;
            for (const std::size_t element : elements) {
                minutes += reach(problem_.bare[element], now_off, now_at);
                for (const std::size_t h : suspects)
                    if (problem_.hypotheses[h].element == element) expected += probability_[h] * minutes;
            }
            consider(result, {expected, minutes, minutes}, weight(suspects));
        } while (std::next_permutation(elements.begin(), elements.end()));
    }

    const Problem& problem_;
    Looks looks_;
    std::vector<double> probability_;  // what another goes on to is as likely as that one
    std::map<std::tuple<Suspects, CoverSet, std::size_t>, BruteForce> known_;
};

}  // namespace

BruteForce brute_force(const Problem& problem, Looks looks) {
    EveryPlan plans(problem, looks);
    const Suspects all = plans.everything();
    BruteForce best = plans.best(all, problem.start.off, problem.start.place);
    best.expected /= plans.weight(all);
    return best;
}

double brute_force_after(const Problem& problem, std::size_t test, Looks looks) {
    EveryPlan plans(problem, looks);
    const Suspects all = plans.everything();
    return plans.after(all, test, problem.start.off, problem.start.place).expected / plans.weight(all);
}

}  // namespace halfsplit::plan
