#include "plan/outline.hpp"

#include <algorithm>
#include <cstring>
#include <numeric>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

namespace halfsplit::plan {

namespace {

// Every hypothesis' outcomes side by side: one byte for each test and hypothesis.
class Columns {
  public:
    explicit Columns(const Problem& problem)
        : length_(problem.tests.size()), outcome_(problem.hypotheses.size() * length_) {
        for (std::size_t test = 0; test < length_; test += tile)
            for (std::size_t h = 0; h < problem.hypotheses.size(); h += tile) turn(problem, test, h);
    }
    int compare(std::size_t a, std::size_t b) const {
        return length_ == 0 ? 0 : std::memcmp(of(a), of(b), length_);
    }
    std::size_t distance(std::size_t a, std::size_t b) const {
        return std::inner_product(of(a), of(a) + length_, of(b), std::size_t{0}, std::plus<>(),
                                  std::not_equal_to<>());
    }
    // By hypothesis: the same number for those that no test tells apart.
    std::vector<std::size_t> numbered(std::size_t hypotheses) const {
        std::unordered_map<std::string_view, std::size_t> known;
        std::vector<std::size_t> number(hypotheses);
        for (std::size_t h = 0; h < hypotheses; ++h)
            number[h] =
                known.emplace(std::string_view(reinterpret_cast<const char*>(of(h)), length_), known.size())
                    .first->second;
        return number;
    }

  private:
    // Small enough for what is read and what is written to stay in a processor's nearest memory.
    static constexpr std::size_t tile = 64;

    void turn(const Problem& problem, std::size_t first_test, std::size_t first_hypothesis) {
        const std::size_t last_test = std::min(first_test + tile, length_);
        const std::size_t last = std::min(first_hypothesis + tile, problem.hypotheses.size());
        for (std::size_t h = first_hypothesis; h < last; ++h)
            for (std::size_t test = first_test; test < last_test; ++test)
                outcome_[h * length_ + test] = problem.tests[test].outcome[h];
    }
    const std::uint8_t* of(std::size_t hypothesis) const { return outcome_.data() + hypothesis * length_; }
    std::size_t length_;
    std::vector<std::uint8_t> outcome_;
};

// Puts one kind after another into the family whose latest member is most like it and that has no place taken
// by it.
class FamilyMaker {
  public:
    FamilyMaker(const Columns& columns, std::size_t hypotheses, bool isolating) : columns_(columns) {
        if (isolating) alike_ = columns.numbered(hypotheses);
    }

    std::size_t place(const Kind& kind) {
        std::size_t best = families_.size(), best_distance = 0;
        for (std::size_t f = 0; f < families_.size(); ++f) {
            if (taken(families_[f], kind)) continue;
            const std::size_t distance = columns_.distance(families_[f].latest, kind.hypothesis);
            if (best < families_.size() && distance >= best_distance) continue;
            best = f;
            best_distance = distance;
        }
        if (best == families_.size()) families_.emplace_back();
        Family& family = families_[best];
        family.element = kind.element;
        family.latest = kind.hypothesis;
        if (!alike_.empty()) family.shown.insert(alike_[kind.hypothesis]);
        return best;
    }
    std::size_t count() const { return families_.size(); }

  private:
    struct Family {
        std::size_t element = 0, latest = 0;    // of the latest member, and its hypothesis
        std::unordered_set<std::size_t> shown;  // of all members, as numbered in `alike_`
    };

    // Kinds come sorted by element, so a clash of elements can only be with the latest. Where nothing is laid
    // bare, two kinds that no test tells apart need not be told apart either and must not share a family.
    bool taken(const Family& family, const Kind& kind) const {
        if (family.element == kind.element) return true;
        return !alike_.empty() && family.shown.count(alike_[kind.hypothesis]) != 0;
    }

    const Columns& columns_;
    std::vector<std::size_t> alike_;  // by hypothesis; only where nothing is laid bare
    std::vector<Family> families_;
};

std::vector<double> shortest_ways(const access::Workshop& workshop) {
    const std::size_t places = workshop.places();
    std::vector<double> way(places * places);
    for (std::size_t from = 0; from < places; ++from)
        for (std::size_t to = 0; to < places; ++to)
            way[from * places + to] = from == to ? 0 : workshop.travel(from, to);
    for (std::size_t by = 0; by < places; ++by)
        for (std::size_t from = 0; from < places; ++from)
            for (std::size_t to = 0; to < places; ++to)
                way[from * places + to] =
                    std::min(way[from * places + to], way[from * places + by] + way[by * places + to]);
    return way;
}

}  // namespace

Outline::Outline(const Problem& posed) : problem(posed), shortest(shortest_ways(posed.workshop)) {
    const Columns columns(problem);
    std::vector<std::size_t> order(problem.hypotheses.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto element = [&](std::size_t h) { return problem.hypotheses[h].element; };
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        if (element(a) != element(b)) return element(a) < element(b);
        const int columns_compared = columns.compare(a, b);
        return columns_compared != 0 ? columns_compared < 0 : a < b;
    });
    std::vector<bool> alone = follows_another(problem);
    for (std::size_t h = 0; h < alone.size(); ++h)
        if (goes_on_to(problem, h) != cured) alone[h] = true;
    FamilyMaker maker(columns, problem.hypotheses.size(), problem.bare.empty());
    kind_of.resize(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        const bool new_element = i == 0 || element(order[i]) != element(order[i - 1]);
        if (new_element) elements.push_back(element(order[i]));
        if (new_element || alone[order[i]] || alone[order[i - 1]] ||
            columns.compare(order[i], order[i - 1]) != 0) {
            kinds.push_back({elements.size() - 1, 0, order[i], cured});
            kinds.back().family = maker.place(kinds.back());
        }
        kind_of[order[i]] = kinds.size() - 1;
    }
    for (Kind& kind : kinds) {
        const std::size_t then = goes_on_to(problem, kind.hypothesis);
        if (then != cured) kind.then = kind_of[then];
    }
    families = maker.count();
}

std::vector<double> Outline::by_kind(const std::vector<double>& probability) const {
    std::vector<double> weight(kinds.size(), 0.0);
    for (std::size_t h = 0; h < probability.size(); ++h) weight[kind_of[h]] += probability[h];
    return weight;
}

std::vector<double> Outline::prior() const {
    double sum = 0;
    for (const Hypothesis& hypothesis : problem.hypotheses) sum += hypothesis.probability;
    std::vector<double> probability;
    for (const Hypothesis& hypothesis : problem.hypotheses)
        probability.push_back(hypothesis.probability / sum);
    return by_kind(probability);
}

}  // namespace halfsplit::plan
