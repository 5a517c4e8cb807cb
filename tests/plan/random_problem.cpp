#include "plan/random_problem.hpp"

#include <algorithm>
#include <array>
#include <random>
#include <utility>

namespace halfsplit::plan {

namespace {

using access::CoverSet;
using access::Site;

class Dice {
  public:
    explicit Dice(unsigned seed) : engine_(seed) {}
    // The standard distributions may differ between libraries; these two do not.
    double between(double low, double high) {
        return low + (high - low) * (static_cast<double>(engine_()) / 4294967296.0);
    }
    std::size_t below(std::size_t count) {
        return static_cast<std::size_t>(between(0, static_cast<double>(count)));
    }
    bool chance(double probability) { return between(0, 1) < probability; }
    template <typename T, std::size_t N>
    T one_of(const std::array<T, N>& values) {
        return values[below(N)];
    }

  private:
    std::mt19937 engine_;
};

class Chain {
  public:
    Chain(const ChainShape& shape, unsigned seed) : shape_(shape), dice_(seed) {}

    Problem make() {
        make_workshop();
        make_points();
        make_tests();
        make_elements();
        if (!shape_.bare) problem_.bare.clear();
        return std::move(problem_);
    }

  private:
    double jitter() { return shape_.uneven ? dice_.between(0, 0.5) : 0; }

    void make_workshop() {
        const std::array<double, 8> off{3, 12, 18, 24, 30, 42, 48, 60};
        std::vector<access::Cover> covers;
        pockets_.assign(shape_.places, {0});
        for (std::size_t c = 0; c < shape_.covers; ++c) {
            const std::size_t place = c < shape_.places ? c : dice_.below(shape_.places);
            const double minutes = dice_.one_of(off) / 2 + jitter();
            access::Cover cover{minutes, minutes, 0};
            if (pockets_[place].size() > 1 && dice_.chance(0.6)) cover.under = pockets_[place][1];
            pockets_[place].push_back(CoverSet{1} << c);
            covers.push_back(cover);
        }
        std::vector<double> travel(shape_.places * shape_.places, 0.0);
        for (std::size_t a = 0; a < shape_.places; ++a)
            for (std::size_t b = 0; b < a; ++b)
                travel[a * shape_.places + b] = travel[b * shape_.places + a] = 2 + jitter();
        problem_.workshop = access::Workshop(covers, shape_.places, travel);
    }

    void make_points() {
        std::size_t place = 0;
        for (std::size_t p = 0; p < shape_.points; ++p) {
            if (p > 0 && dice_.chance(0.35)) place = dice_.below(shape_.places);
            std::size_t pocket = dice_.below(pockets_[place].size());
            if (pocket == 0) pocket = dice_.below(pockets_[place].size());
            points_.push_back({place, pockets_[place][pocket], 1 + jitter()});
        }
    }

    void make_tests() {
        for (std::size_t line = 0; line < (shape_.two_lines ? 2U : 1U); ++line)
            for (const Site& point : points_) {
                problem_.tests.push_back({point, {}, shape_.slip, 1});
                if (shape_.uneven && line == 1) problem_.tests.back().site.minutes = 1 + jitter();
            }
        if (shape_.whole_bus) problem_.tests.push_back({{0, 0, 1 + jitter()}, {}, shape_.slip, 1});
        for (Test& test : problem_.tests) test.outcome.reserve(likely_hypotheses());
    }

    // A good guess of how many there will be, so that a large problem is made in little more than its own
    // memory.
    std::size_t likely_hypotheses() const {
        const std::size_t kinds =
            (shape_.two_lines ? shape_.joints ? 5U : 3U : 1U) + (shape_.shorts ? 1U : 0U);
        return (shape_.points + 1) * kinds * 23 / 20;
    }

    // One element before each point and after the last, now and then two that no test tells apart.
    void make_elements() {
        const std::array<double, 5> kinds{3, 2, 1, 0.4, 0.2};
        for (std::size_t gap = 0; gap <= shape_.points; ++gap)
            for (std::size_t i = dice_.chance(0.12) ? 2 : 1; i > 0; --i) {
                const std::size_t near =
                    gap == 0 || (gap < shape_.points && dice_.chance(0.5)) ? gap : gap - 1;
                Site site = points_[near];
                site.minutes = 3 + jitter();
                double weight = dice_.one_of(kinds) * dice_.between(0.9, 1.1);
                if (dice_.chance(0.2)) weight *= dice_.chance(0.5) ? 5 : 3;
                add_faults(gap, weight);
                problem_.bare.push_back(site);
            }
    }

    // Outcomes: 0 whole, 1 open, 2 bad joint; at the whole bus 3 is short.
    void add_faults(std::size_t gap, double weight) {
        if (!shape_.two_lines) {
            add(gap, weight, 1, 0, 1);
        } else {
            add(gap, weight * 0.25, 1, 0, 1);
            add(gap, weight * dice_.between(0.2, 0.3), 0, 1, 1);
            add(gap, weight * 0.1, 1, 1, 1);
            if (shape_.joints) {
                add(gap, weight * dice_.between(0.1, 0.2), 2, 0, 2);
                add(gap, weight * dice_.between(0.1, 0.2), 0, 2, 2);
            }
        }
        if (shape_.shorts) add(gap, weight * 0.06, 0, 0, 3);
    }

    void add(std::size_t gap, double weight, std::uint8_t high, std::uint8_t low, std::uint8_t bus) {
        problem_.hypotheses.push_back({weight, problem_.bare.size()});
        for (std::size_t p = 0; p < shape_.points; ++p) {
            problem_.tests[p].outcome.push_back(p >= gap ? high : std::uint8_t{0});
            if (shape_.two_lines)
                problem_.tests[shape_.points + p].outcome.push_back(p >= gap ? low : std::uint8_t{0});
        }
        if (shape_.whole_bus) problem_.tests.back().outcome.push_back(bus);
    }

    ChainShape shape_;
    Dice dice_;
    Problem problem_;
    std::vector<std::vector<CoverSet>> pockets_;  // by place: what a point there may need
    std::vector<Site> points_;
};

}  // namespace

Problem random_chain(const ChainShape& shape, unsigned seed) {
    return Chain(shape, seed).make();
}

double total_probability(const Problem& problem) {
    double total = 0;
    for (const Hypothesis& hypothesis : problem.hypotheses) total += hypothesis.probability;
    return total;
}

Problem random_anything(std::size_t hypotheses, std::size_t tests, std::size_t outcomes, unsigned seed) {
    Dice dice(seed);
    const std::size_t places = 3, covers = 4;
    std::vector<access::Cover> list;
    for (std::size_t c = 0; c < covers; ++c)
        list.push_back({dice.between(0, 5), dice.between(0, 5),
                        c > 0 && dice.chance(0.4) ? CoverSet{1} << dice.below(c) : 0});
    std::vector<double> travel;
    for (std::size_t i = 0; i < places * places; ++i)
        travel.push_back(i % (places + 1) == 0 ? 0 : dice.between(0, 4));
    Problem problem;
    problem.workshop = access::Workshop(list, places, travel);
    const auto site = [&](double least, double most) {
        return Site{dice.below(places), dice.below(CoverSet{1} << covers) & dice.below(CoverSet{1} << covers),
                    dice.between(least, most)};
    };
    const std::size_t elements = (hypotheses + 1) / 2 + dice.below(hypotheses / 2 + 1);
    for (std::size_t e = 0; e < elements; ++e) problem.bare.push_back(site(0, dice.chance(0.2) ? 0.3 : 5));
    for (std::size_t h = 0; h < hypotheses; ++h)
        problem.hypotheses.push_back({dice.chance(0.1) ? 0 : dice.between(0.01, 1), dice.below(elements)});
    problem.hypotheses.front().probability = 1;
    for (std::size_t t = 0; t < tests; ++t) {
        problem.tests.push_back({site(0.2, 2), {}, 0, 0});
        for (std::size_t h = 0; h < hypotheses; ++h)
            problem.tests.back().outcome.push_back(static_cast<std::uint8_t>(dice.below(outcomes)));
    }
    return problem;
}

Problem with_detours(Problem problem, unsigned seed) {
    Dice dice(seed);
    const std::size_t places = problem.workshop.places();
    std::vector<double> travel;
    for (std::size_t i = 0; i < places * places; ++i) {
        const bool here = i % (places + 1) == 0, longer = dice.chance(0.35);
        travel.push_back(here ? 0 : longer ? dice.between(8, 18) : dice.between(0.3, 0.8));
    }
    problem.workshop = access::Workshop({}, places, travel);
    for (Test& test : problem.tests) test.site.need = 0;
    for (Site& site : problem.bare) site.need = 0;
    return problem;
}

Problem with_pairs(Problem problem, std::size_t pairs, unsigned seed) {
    Dice dice(seed);
    const std::size_t singles = problem.hypotheses.size();
    const auto add = [&](const Hypothesis& hypothesis, const auto& outcome_in) {
        problem.hypotheses.push_back(hypothesis);
        for (Test& test : problem.tests) test.outcome.push_back(outcome_in(test));
    };
    for (std::size_t made = 0, tries = 0; made < pairs && tries < 100 * pairs; ++tries) {
        const std::size_t first = dice.below(singles), second = dice.below(singles);
        if (problem.hypotheses[first].element == problem.hypotheses[second].element) continue;
        add({dice.between(0.05, 0.5), problem.hypotheses[first].element, problem.hypotheses.size() + 1},
            [&](const Test& test) { return test.outcome[dice.chance(0.5) ? first : second]; });
        add({0, problem.hypotheses[second].element}, [&](const Test& test) { return test.outcome[second]; });
        ++made;
    }
    return problem;
}

}  // namespace halfsplit::plan
