#include "halfsplit/plan/one_step.hpp"

#include "plan/root.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <stdexcept>
#include <tuple>

namespace halfsplit::plan {

using access::Standing;

namespace {

// How many of the likeliest elements are considered for laying bare at once.
constexpr std::size_t leading_elements = 2;

double sum_of(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

std::vector<double> normalised(std::vector<double> values) {
    const double sum = sum_of(values);
    for (double& value : values) value /= sum;
    return values;
}

// The likeliest kinds that hold at least 1 - ignored, the others set to zero.
std::vector<double> cut(std::vector<double> weight, double ignored) {
    std::vector<std::size_t> order(weight.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return weight[a] < weight[b]; });
    double left_out = 0;
    const double most = ignored * sum_of(weight);
    for (std::size_t i = 0; i + 1 < order.size() && left_out + weight[order[i]] <= most; ++i) {
        left_out += weight[order[i]];
        weight[order[i]] = 0;
    }
    return weight;
}

class OneStep {
  public:
    OneStep(const Problem& problem, const OneStepOptions& options)
        : problem_(problem), options_(options), outline_(problem), prior_(prior_of(problem)),
          prior_by_kind_(outline_.by_kind(prior_)), kept_(cut(prior_by_kind_, options.ignored)),
          desk_(outline_, kept_, options.limits.states) {}

    Recommendation run() {
        Recommendation result;
        const Ranking ranking = desk_.rank(desk_.sets().all(), problem_.start, options_.candidates - 1);
        result.truthful = as_solution(ranking, desk_);
        if (ranking.choices.empty()) return result;
        for (std::size_t i = 0; i < ranking.choices.size() && i < options_.candidates; ++i) {
            const Choice& choice = ranking.choices[i].choice;
            result.options.push_back(choice.step == Step::Test ? after_test(choice) : after_look(choice.index));
        }
        consider_looking(result.options);
        std::stable_sort(result.options.begin(), result.options.end(), [](const Option& a, const Option& b) {
            return a.choice.expected_minutes < b.choice.expected_minutes;
        });
        return result;
    }

  private:
    static std::vector<double> prior_of(const Problem& problem) {
        std::vector<double> prior;
        for (const Hypothesis& hypothesis : problem.hypotheses) prior.push_back(hypothesis.probability);
        return normalised(std::move(prior));
    }

    Standing at(const access::Site& site) const {
        return {site.place, problem_.start.off | problem_.workshop.closure(site.need)};
    }
    double reach(const access::Site& site) const {
        access::Site closed = site;
        closed.need = problem_.workshop.closure(site.need);
        return problem_.workshop.reach(closed, problem_.start.place, problem_.start.off);
    }

    Option after_test(const Choice& choice) {
        const Test& test = problem_.tests[choice.index];
        Option option{choice, {}};
        option.choice.expected_minutes = option.choice.worst_minutes = choice.minutes_now;
        std::map<int, std::vector<double>> joint;  // by outcome: probability of it and each hypothesis
        const auto& of = [&](int outcome) -> std::vector<double>& {
            return joint.try_emplace(outcome, prior_.size(), 0.0).first->second;
        };
        for (std::size_t h = 0; h < prior_.size(); ++h) {
            of(test.outcome[h])[h] += prior_[h] * (1 - test.slip);
            of(test.slip_outcome)[h] += prior_[h] * test.slip;
        }
        for (auto& [outcome, weight] : joint) {
            const double chance = sum_of(weight);
            if (chance <= 0) continue;
            const bool truthful = test.slip == 0 || outcome != test.slip_outcome;
            add_outcome(option, outcome, chance, normalised(std::move(weight)), at(test.site), truthful);
        }
        return option;
    }

    Option after_look(std::size_t element) {
        const access::Site& site = problem_.bare[element];
        Option option{{Step::LayBare, element, reach(site), 0, 0}, {}};
        option.choice.expected_minutes = option.choice.worst_minutes = option.choice.minutes_now;
        std::vector<double> guilty(prior_.size(), 0.0), rest = prior_;
        for (std::size_t h = 0; h < prior_.size(); ++h)
            if (problem_.hypotheses[h].element == element) std::swap(guilty[h], rest[h]);
        const double chance = sum_of(guilty);
        if (chance > 0) option.outcomes.push_back({0, chance, 0, normalised(std::move(guilty))});
        const double other = sum_of(rest);
        if (other > 0) add_outcome(option, 1, other, normalised(std::move(rest)), at(site), true);
        return option;
    }

    // `truthful`: the outcome only strikes hypotheses out, so what is left keeps its proportions.
    void add_outcome(Option& option, int outcome, double chance, std::vector<double> posterior, const Standing& then,
                     bool truthful) {
        const Plan rest = best_from(posterior, then, truthful);
        option.choice.expected_minutes += chance * rest.minutes;
        option.choice.worst_minutes = std::max(option.choice.worst_minutes, option.choice.minutes_now + rest.worst);
        option.outcomes.push_back({outcome, chance, rest.minutes, std::move(posterior)});
    }

    // The members of the first cut that a posterior leaves, as a set of the first desk; none when they hold too little.
    std::vector<Word> left_of_first_cut(const std::vector<double>& posterior) {
        const Model& model = desk_.model();
        std::vector<Word> bits(model.words, 0);
        double held = 0;
        for (std::size_t s = 0; s < model.suspects.size(); ++s) {
            if (posterior[model.kind[s]] <= 0) continue;
            bits[s / word_bits] |= Word{1} << s % word_bits;
            held += posterior[model.kind[s]];
        }
        if (held < 1 - 2 * options_.ignored) bits.clear();
        return bits;
    }

    Plan best_from(const std::vector<double>& posterior, const Standing& then, bool truthful) {
        const std::vector<double> by_kind = outline_.by_kind(posterior);
        if (truthful) {
            const std::vector<Word> bits = left_of_first_cut(by_kind);
            if (!bits.empty()) return desk_.value(desk_.sets().intern(bits), then);
        }
        Desk desk(outline_, cut(by_kind, options_.ignored), options_.limits.states);
        return desk.value(desk.sets().all(), then);
    }

    void consider_looking(std::vector<Option>& options) {
        if (problem_.bare.empty()) return;
        std::vector<double> chance(problem_.bare.size(), 0.0);
        for (std::size_t h = 0; h < prior_.size(); ++h) chance[problem_.hypotheses[h].element] += prior_[h];
        for (std::size_t i = 0; i < leading_elements; ++i) {
            const auto leading = std::max_element(chance.begin(), chance.end());
            if (*leading <= 0) return;
            const auto element = static_cast<std::size_t>(leading - chance.begin());
            const bool there = std::any_of(options.begin(), options.end(), [&](const Option& option) {
                return option.choice.step == Step::LayBare && option.choice.index == element;
            });
            if (!there && may_win(element, *leading, options)) options.push_back(after_look(element));
            *leading = 0;
        }
    }

    bool may_win(std::size_t element, double chance, const std::vector<Option>& options) {
        double best = Search::infinity;
        for (const Option& option : options) best = std::min(best, option.choice.expected_minutes);
        double bound = reach(problem_.bare[element]);
        std::vector<double> rest = prior_by_kind_;
        for (std::size_t k = 0; k < rest.size(); ++k)
            if (outline_.elements[outline_.kinds[k].element] == element) rest[k] = 0;
        const std::vector<Word> bits = left_of_first_cut(normalised(rest));
        if (chance < 1 && !bits.empty())
            bound += (1 - chance) * desk_.quick_bound(desk_.sets().intern(bits), at(problem_.bare[element]));
        return bound < best;
    }

    const Problem& problem_;
    const OneStepOptions& options_;
    Outline outline_;
    std::vector<double> prior_, prior_by_kind_, kept_;
    Desk desk_;
};

}  // namespace

Recommendation one_step(const Problem& problem, const OneStepOptions& options) {
    require_sound(problem);
    if (!(options.ignored >= 0 && options.ignored < 1)) throw std::invalid_argument("ignored is not within 0 to 1");
    if (options.candidates == 0) throw std::invalid_argument("candidates is 0; at least one choice must be looked at");
    return OneStep(problem, options).run();
}

}  // namespace halfsplit::plan
