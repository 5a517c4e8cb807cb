#include "halfsplit/plan/one_step.hpp"

#include "plan/both_classes.hpp"
#include "plan/chances.hpp"
#include "plan/objective_step.hpp"
#include "plan/policy_writer.hpp"
#include "plan/prospect.hpp"
#include "plan/ranking.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <optional>
#include <stdexcept>

namespace halfsplit::plan {

using access::Standing;

namespace {

// How many of the likeliest elements are considered for laying bare at once.
constexpr std::size_t leading_elements = 2;

// How many first steps are looked at among looks at any time where the search ran out: each takes long then.
constexpr std::size_t few = 2;

// How many options get their minutes by hypothesis.
constexpr std::size_t itemised = 3;

void insert(std::vector<Option>& options, Option option) {
    const auto after = std::find_if(options.begin(), options.end(), [&](const Option& other) {
        return option.choice.expected_minutes < other.choice.expected_minutes - tie_minutes;
    });
    options.insert(after, std::move(option));
}

class OneStep {
  public:
    OneStep(const Problem& problem, const OneStepOptions& options)
        : problem_(problem),
          options_(options),
          outline_(problem),
          prior_(prior_of(problem)),
          kept_(cut(outline_.by_kind(prior_), options.ignored)),
          ground_(outline_, kept_),
          desk_(ground_, options.limits),
          opening_{outline_, desk_, options.ignored, options.limits} {}

    // Whether the least expected minutes of the truthful plan are known, or are known to be `enough` or more.
    bool settle(double enough) {
        desk_.settle(ground_.sets.all(), problem_.start, enough);
        return !desk_.exhausted();
    }
    // Of the truthful plan.
    double lower_bound() { return desk_.lower_bound_of_all(problem_.start); }
    // Of the probability.
    double kept() const { return sum_of(kept_); }

    // Slips never help, so a choice is not worth a look once even its truthful value is beaten.
    Recommendation run(std::size_t candidates) {
        Recommendation result;
        result.truthful = rank_all(desk_, ground_.sets.all(), problem_.start, 0);
        result.truthful.looks = options_.limits.looks;
        result.lower_bound = kept() * result.truthful.lower_bound;
        Ranking ranking(desk_, ground_.sets.all(), problem_.start);
        if (ranking.nothing_to_do()) return result;
        std::vector<RankedChoice> estimates;
        for (std::size_t i = 0; i < candidates; ++i) {
            auto choice = ranking.next(budget());
            if (!choice && desk_.exhausted()) {
                if (estimates.empty()) estimates = ranking.estimates();
            }
            if (!choice) break;
            try_choice(choice->choice);
        }
        estimates.resize(std::min(estimates.size(), candidates));
        for (const RankedChoice& estimate : estimates) try_choice(estimate.choice);
        if (!problem_.bare.empty()) try_leading_elements();
        for (std::size_t i = 0; i < std::min(found_.size(), itemised); ++i) itemise(found_[i]);
        result.options = std::move(found_);
        return result;
    }

  private:
    // One outcome of a choice under consideration.
    struct Branch {
        int outcome = 0;
        double chance = 0;
        std::vector<double> posterior;
        std::unique_ptr<Prospect> prospect;  // none when the hunt is then over
    };

    Standing at(const access::Site& site) const {
        return {site.place, problem_.start.off | problem_.workshop.closure(site.need)};
    }
    double reach(access::Site site) const {
        site.need = problem_.workshop.closure(site.need);
        return problem_.workshop.reach(site, problem_.start.place, problem_.start.off);
    }

    // What an option must come under to be kept.
    double budget() const {
        return found_.size() < options_.kept ? Search::infinity
                                             : found_[options_.kept - 1].choice.expected_minutes;
    }

    void try_choice(const Choice& choice) {
        if (choice.step == Step::Test)
            try_test(choice);
        else
            try_look(choice.index);
    }

    void try_test(const Choice& choice) {
        const Test& test = problem_.tests[choice.index];
        std::map<int, std::vector<double>>
            joint;  // by outcome: probability of it together with each hypothesis
        const auto of = [&](int outcome) -> std::vector<double>& {
            return joint.try_emplace(outcome, prior_.size(), 0.0).first->second;
        };
        for (std::size_t h = 0; h < prior_.size(); ++h) {
            of(test.outcome[h])[h] += prior_[h] * (1 - test.slip);
            of(test.slip_outcome)[h] += prior_[h] * test.slip;
        }
        std::vector<Branch> branches;
        for (auto& [outcome, weight] : joint) {
            const double unlikely = outcome == test.slip_outcome ? test.slip : 0;
            add_branch(branches, outcome, std::move(weight), at(test.site), unlikely,
                       [&, shown = outcome](std::size_t h) { return test.outcome[h] == shown; });
        }
        compare(choice, std::move(branches));
    }

    void try_look(std::size_t element) {
        const access::Site& site = problem_.bare[element];
        std::vector<double> ending(prior_.size(), 0.0), going_on = ending, rest = prior_;
        for (std::size_t h = 0; h < prior_.size(); ++h) {
            const Hypothesis& own = problem_.hypotheses[h];
            if (own.element != element) continue;
            (own.then == cured ? ending[h] : going_on[own.then]) = prior_[h];
            rest[h] = 0;
        }
        std::vector<Branch> branches;
        const double chance = sum_of(ending);
        if (chance > 0) branches.push_back({0, chance, normalised(std::move(ending)), nullptr});
        std::vector<bool> follows(prior_.size());
        for (std::size_t h = 0; h < prior_.size(); ++h) follows[h] = going_on[h] > 0;
        add_branch(branches, 1, std::move(rest), at(site), 0,
                   [&](std::size_t h) { return problem_.hypotheses[h].element != element; });
        add_branch(branches, 2, std::move(going_on), at(site), 0, [&](std::size_t h) { return follows[h]; });
        compare({Step::LayBare, element, reach(site), 0, 0}, std::move(branches));
    }

    template <typename Consistent>
    void add_branch(std::vector<Branch>& branches, int outcome, std::vector<double> weight,
                    const Standing& then, double unlikely, Consistent consistent) {
        const double chance = sum_of(weight);
        if (chance <= 0) return;
        std::vector<bool> consistent_kind(outline_.kinds.size());
        for (std::size_t k = 0; k < outline_.kinds.size(); ++k)
            consistent_kind[k] = consistent(outline_.kinds[k].hypothesis);
        Branch branch{outcome, chance, normalised(std::move(weight)), nullptr};
        branch.prospect = std::make_unique<Prospect>(opening_, outline_.by_kind(branch.posterior),
                                                     consistent_kind, unlikely, then);
        branches.push_back(std::move(branch));
    }

    // Keeps the choice unless a bound shows that enough others are better.
    void compare(const Choice& choice, std::vector<Branch> branches) {
        const double enough = budget();
        double least = choice.minutes_now;
        for (const Branch& branch : branches)
            if (branch.prospect) least += branch.chance * branch.prospect->lower_bound();
        for (const Branch& branch : branches) {
            if (!branch.prospect) continue;
            if (least >= enough) return;
            const double before = branch.chance * branch.prospect->lower_bound();
            branch.prospect->settle((enough - (least - before)) / branch.chance);
            least += branch.chance * branch.prospect->lower_bound() - before;
        }
        if (least >= enough) return;
        keep(choice, std::move(branches));
    }

    void keep(const Choice& choice, std::vector<Branch> branches) {
        Option option{choice, {}, {}};
        option.choice.expected_minutes = option.choice.worst_minutes = choice.minutes_now;
        for (Branch& branch : branches) {
            const Plan rest = branch.prospect ? branch.prospect->value() : Plan{};
            option.choice.expected_minutes += branch.chance * rest.minutes;
            option.choice.worst_minutes =
                std::max(option.choice.worst_minutes, choice.minutes_now + rest.worst);
            option.outcomes.push_back(
                {branch.outcome, branch.chance, rest.minutes, std::move(branch.posterior)});
        }
        insert(found_, std::move(option));
    }

    void try_leading_elements() {
        std::vector<double> chance(problem_.bare.size(), 0.0);
        for (std::size_t h = 0; h < prior_.size(); ++h) chance[problem_.hypotheses[h].element] += prior_[h];
        for (std::size_t i = 0; i < leading_elements; ++i) {
            const auto leading = std::max_element(chance.begin(), chance.end());
            if (*leading <= 0) return;
            const auto element = static_cast<std::size_t>(leading - chance.begin());
            const bool tried = std::any_of(found_.begin(), found_.end(), [&](const Option& option) {
                return option.choice.step == Step::LayBare && option.choice.index == element;
            });
            if (!tried) try_look(element);
            *leading = 0;
        }
    }

    void itemise(Option& option) {
        const std::optional<Move> first = as_move(option.choice);
        if (!first) return;  // of no use under the cut belief
        PolicyWriter writer(
            problem_, outline_, ground_, [&](SetId set, const Standing& standing, double spent) {
                return spent == 0 && set == ground_.sets.all() ? *first : desk_.move(set, standing);
            });
        option.minutes = writer.write().minutes;
        for (std::size_t h = 0; h < option.minutes.size(); ++h)
            if (kept_[outline_.kind_of[h]] <= 0) option.minutes[h] = -1;
    }

    std::optional<Move> as_move(const Choice& choice) const {
        const Model& model = ground_.model;
        if (choice.step == Step::Test) {
            for (std::uint32_t t = 0; t < model.tests.size(); ++t)
                if (model.tests[t].index == choice.index) return Move{Step::Test, t, {}};
        } else {
            for (const Suspect& suspect : model.suspects)
                if (model.bare[suspect.element].index == choice.index)
                    return Move{Step::LayBare, suspect.element, {}};
        }
        return std::nullopt;
    }

    const Problem& problem_;
    const OneStepOptions& options_;
    Outline outline_;
    std::vector<double> prior_;
    std::vector<double> kept_;  // by kind of the outline
    Ground ground_;
    Desk desk_;
    Opening opening_;
    std::vector<Option> found_;  // best first
};

// Each step as good as the better of both ways of going on makes it.
void add_where_better(std::vector<Option>& options, std::vector<Option> others) {
    for (Option& other : others) {
        const auto same = std::find_if(options.begin(), options.end(), [&](const Option& option) {
            return same_step(option.choice, other.choice);
        });
        if (same != options.end()) {
            if (same->choice.expected_minutes <= other.choice.expected_minutes) continue;
            options.erase(same);
        }
        insert(options, std::move(other));
    }
}

Recommendation by_expected_minutes(const Problem& problem, const OneStepOptions& options) {
    OneStepOptions last_options = options;
    last_options.limits.looks = Looks::Last;
    Recommendation last = OneStep(problem, last_options).run(options.candidates);
    if (options.limits.looks == Looks::Last) return last;
    if (problem.bare.empty()) {  // both classes are one
        last.truthful.looks = Looks::AnyTime;
        return last;
    }
    OneStepOptions any_time_options = options;
    any_time_options.limits = for_looks_at_any_time(options.limits);
    OneStep any_time(problem, any_time_options);
    const bool solved = any_time.settle(last.truthful.best.expected_minutes);
    take_bound_of_any_time(last.truthful, any_time.lower_bound());
    last.lower_bound = any_time.kept() * last.truthful.lower_bound;
    if (last.truthful.looks == Looks::AnyTime) return last;
    Recommendation better = any_time.run(solved ? options.candidates : std::min(options.candidates, few));
    add_where_better(better.options, std::move(last.options));
    if (last.truthful.best.expected_minutes <= better.truthful.best.expected_minutes) {
        better.truthful = std::move(last.truthful);
        better.lower_bound = last.lower_bound;
    }
    return better;
}

// How many options a second step may put in another order.
std::size_t worth_a_second_step(const Recommendation& result, const Problem& problem,
                                const OneStepOptions& options) {
    const bool slips = std::any_of(problem.tests.begin(), problem.tests.end(),
                                   [](const Test& test) { return test.slip > 0; });
    if (!slips || result.options.empty() || result.truthful.states > options.second_step_within) return 0;
    const double near =
        result.options.front().choice.expected_minutes * (1 + options.second_step_margin) + tie_minutes;
    const auto far = std::find_if(result.options.begin(), result.options.end(), [&](const Option& option) {
        return option.choice.expected_minutes > near;
    });
    const auto count = static_cast<std::size_t>(far - result.options.begin());
    return count < 2 ? 0 : std::min(count, options.second_step);
}

// What is left after an outcome, looked at one real step ahead.
double left_after(const Option& option, const OutcomeView& view, const Problem& problem,
                  const OneStepOptions& options) {
    const bool look = option.choice.step == Step::LayBare;
    if (look && view.outcome == 0) return 0;
    const access::Site& site =
        look ? problem.bare[option.choice.index] : problem.tests[option.choice.index].site;
    Problem then = problem;
    then.start = {site.place, problem.start.off | problem.workshop.closure(site.need)};
    for (std::size_t h = 0; h < view.posterior.size(); ++h)
        then.hypotheses[h].probability = view.posterior[h];
    const Recommendation next = by_expected_minutes(then, options);
    return next.options.empty() ? view.expected_minutes_left : next.options.front().choice.expected_minutes;
}

// The first `count` options, in the order of what they are worth two real steps ahead.
void look_further(Recommendation& result, std::size_t count, const Problem& problem,
                  const OneStepOptions& options) {
    OneStepOptions further = options;
    further.candidates = further.kept = 2;
    further.ignored = options.ignored / 10;  // what a reading made unlikely is what a second one is for
    further.limits.looks = result.truthful.looks == Looks::Last ? Looks::Last : options.limits.looks;
    std::vector<Option> refined;
    for (std::size_t i = 0; i < count; ++i) {
        Option option = std::move(result.options[i]);
        option.choice.expected_minutes = option.choice.minutes_now;
        for (OutcomeView& view : option.outcomes) {
            view.expected_minutes_left = left_after(option, view, problem, further);
            option.choice.expected_minutes += view.chance * view.expected_minutes_left;
        }
        insert(refined, std::move(option));
    }
    std::move(refined.begin(), refined.end(), result.options.begin());
}

}  // namespace

Recommendation one_step(const Problem& problem, const OneStepOptions& options) {
    require_sound(problem);
    if (!(options.ignored >= 0 && options.ignored < 1))
        throw std::invalid_argument("OneStepOptions.ignored must be from 0 to below 1");
    if (options.candidates == 0 || options.kept == 0)
        throw std::invalid_argument("OneStepOptions.candidates and .kept must be at least 1");
    Recommendation result = by_expected_minutes(problem, options);
    look_further(result, worth_a_second_step(result, problem, options), problem, options);
    if (!options.objective.is_expected_alone()) put_first(result, problem, options);
    return result;
}

}  // namespace halfsplit::plan
