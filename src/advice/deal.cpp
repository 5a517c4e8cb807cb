#include "advice/deal.hpp"

#include "advice/describe.hpp"
#include "advice/preparation.hpp"
#include "advice/reading_bands.hpp"
#include "advice/spot.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <utility>

namespace halfsplit::advice {

using harness::Index;
using harness::none;
using plan::Policy;
using plan::PolicyStep;

namespace {

class Dealer {
  public:
    Dealer(const DealInput& input, const WholePlan& plan, Card& card)
        : input_(input), plan_(plan), card_(card) {}

    void run() {
        if (plan_.policy.steps.empty()) return;
        mark();
        deal({0}, {input_.standing, input_.posed.arrangements.front(), ""});
    }

  private:
    // How things are left by the steps up to here.
    struct Left {
        access::Standing standing;  // in the harness's places
        Arrangement arrangement;
        std::string half;  // where was read last: "X3.a"
    };

    // Steps of the plan with the same mark are done alike, and so is all that follows: on paper they are one.
    void mark() {
        std::map<std::vector<std::size_t>, std::size_t> known;
        mark_.resize(plan_.policy.steps.size());
        for (std::size_t at = mark_.size(); at-- > 0;) {
            const PolicyStep& planned = plan_.policy.steps[at];
            std::vector<std::size_t> key{static_cast<std::size_t>(planned.step), planned.index};
            for (const PolicyStep::Branch& branch : possible(planned)) {
                key.push_back(static_cast<std::size_t>(branch.outcome));
                key.push_back(branch.next == Policy::over ? Policy::over : mark_[branch.next]);
            }
            mark_[at] = known.try_emplace(std::move(key), known.size()).first->second;
        }
    }

    // An outcome of steps that are one on paper.
    struct Way {
        int outcome = 0;
        double chance = 0;
        std::vector<std::size_t> next;  // steps of the plan, alike; empty where the hunt is over
    };

    std::vector<Way> ways(const std::vector<std::size_t>& alike) const {
        std::vector<Way> result;
        for (const PolicyStep::Branch& branch : possible(plan_.policy.steps[alike.front()]))
            result.push_back({branch.outcome, 0, {}});
        for (const std::size_t at : alike) {
            const auto branches = possible(plan_.policy.steps[at]);
            for (std::size_t b = 0; b < branches.size(); ++b) {
                result[b].chance += branches[b].chance;
                if (branches[b].next != Policy::over) result[b].next.push_back(branches[b].next);
            }
        }
        return result;
    }

    // The step and all that it leads to; its number. Likely outcomes first, so that a likely hunt goes down
    // the card.
    std::size_t deal(const std::vector<std::size_t>& alike, const Left& left) {
        const PolicyStep& planned = plan_.policy.steps[alike.front()];
        const std::vector<Way> all = ways(alike);
        const std::size_t own = card_.steps.size();
        card_.steps.push_back(described(planned, all, left));
        for (const std::size_t at : alike) card_.steps[own].chance += plan_.policy.steps[at].chance;
        card_.steps[own].chance = std::min(card_.steps[own].chance, 1.0);
        const Left then = after(planned, left, card_.steps[own]);
        for (const std::vector<std::size_t>& together : together_likeliest_first(all)) {
            double chance = 0;
            std::vector<std::size_t> next;
            for (const std::size_t w : together) {
                chance += all[w].chance;
                next.insert(next.end(), all[w].next.begin(), all[w].next.end());
            }
            if (chance < least_card_chance) continue;
            const std::size_t number = deal(next, then);
            for (const std::size_t w : together) card_.steps[own].outcomes[w].goes_to = number;
        }
        fold_small(alike, all, card_.steps[own]);
        return own + 1;
    }

    // Outcomes after which the plan goes on, those after which it does alike together.
    std::vector<std::vector<std::size_t>> together_likeliest_first(const std::vector<Way>& all) const {
        std::vector<std::vector<std::size_t>> groups;
        std::vector<double> chances;
        std::map<std::size_t, std::size_t> group_of;
        for (std::size_t w = 0; w < all.size(); ++w) {
            if (all[w].next.empty()) continue;
            const auto [group, added] = group_of.try_emplace(mark_[all[w].next.front()], groups.size());
            if (added) {
                groups.emplace_back();
                chances.push_back(0);
            }
            groups[group->second].push_back(w);
            chances[group->second] += all[w].chance;
        }
        std::vector<std::vector<std::size_t>> result;
        for (const std::size_t group : heaviest_first(chances)) result.push_back(groups[group]);
        return result;
    }

    // What is not told leads back to the screen; that a part is the fault is told however small its chance.
    void fold_small(const std::vector<std::size_t>& alike, const std::vector<Way>& all,
                    CardStep& step) const {
        const bool look = step.action == Action::Look;
        std::vector<CardOutcome> told;
        for (std::size_t w = 0; w < all.size(); ++w) {
            CardOutcome& outcome = step.outcomes[w];
            const bool over = all[w].next.empty();
            if (outcome.goes_to > 0 || (over && (look || all[w].chance >= least_card_chance))) {
                if (over) outcome.parts = parts_of(alike, all[w].outcome);
                told.push_back(std::move(outcome));
            }
        }
        double chance = 0;
        for (const CardOutcome& outcome : told) chance += outcome.chance;
        step.folded = std::max(0.0, step.chance - chance);
        step.outcomes = std::move(told);
    }

    // A look may always show the fault; that mending it does not cure is for the screen.
    static std::vector<PolicyStep::Branch> possible(const PolicyStep& planned) {
        const bool look = planned.step == plan::Step::LayBare;
        std::vector<PolicyStep::Branch> result;
        if (look && (planned.branches.empty() || planned.branches.front().outcome != 0))
            result.push_back({0, 0, Policy::over});
        for (const PolicyStep::Branch& branch : planned.branches) {
            const bool told =
                look ? branch.outcome == 0 || (branch.outcome == 1 && branch.chance > 0) : branch.chance > 0;
            if (told) result.push_back(branch);
        }
        return result;
    }

    CardStep described(const PolicyStep& planned, const std::vector<Way>& all, const Left& left) const {
        plan::Option option;
        option.choice.step = planned.step;
        option.choice.index = planned.index;
        for (const Way& way : all) option.outcomes.push_back({way.outcome, way.chance, 0, {}});
        Recommendation words;
        Describer(input_.harness, input_.costs, left.standing, words)
            .step(option, input_.posed, left.arrangement);
        CardStep step;
        step.number = card_.steps.size() + 1;
        step.action = words.action;
        step.red = std::move(words.red);
        step.black = std::move(words.black);
        step.target = std::move(words.target);
        step.same_half = !step.red.half.empty() && half_of(step.red) == left.half;
        step.quantity = std::move(words.quantity);
        step.bus = std::move(words.bus);
        step.move_loom = input_.posed.moves_loom && words.action == Action::Read;
        // Told where one comes to a place, and not again at each step there.
        const bool comes = card_.steps.empty() || !words.travel_to.empty() || !words.covers.empty() ||
                           !words.prepare.empty();
        if (comes) step.cautions = std::move(words.cautions);
        step.prepare = std::move(words.prepare);
        step.travel_to = std::move(words.travel_to);
        step.travel_minutes = words.travel_minutes;
        step.covers = std::move(words.covers);
        step.minutes = std::max(planned.minutes, least_minutes(planned, step));
        for (const Forecast& forecast : words.outcomes)
            step.outcomes.push_back({.shows = forecast.shows,
                                     .answering = forecast.answering,
                                     .chance = std::min(forecast.chance, 1.0)});
        if (planned.step == plan::Step::Test) say_what_the_meter_shows(planned, all, step);
        return step;
    }

    // Ways, covers and the reading or look alone. The plan takes things to stand as at first after a look; to
    // have them so may need a walk that it does not count.
    double least_minutes(const PolicyStep& planned, const CardStep& step) const {
        const bool test = planned.step == plan::Step::Test;
        double minutes = step.travel_minutes + minutes_of(step.covers) +
                         (test ? plan_.problem.tests[planned.index].site.minutes
                               : input_.costs.look(input_.posed.part_of_element[planned.index]).minutes);
        for (const Preparation& first : step.prepare)
            minutes += first.travel_minutes + minutes_of(first.covers);
        return minutes;
    }

    static double minutes_of(const std::vector<CoverStep>& covers) {
        double minutes = 0;
        for (const CoverStep& cover : covers) minutes += cover.off_minutes + cover.on_minutes;
        return minutes;
    }

    void say_what_the_meter_shows(const PolicyStep& planned, const std::vector<Way>& all,
                                  CardStep& step) const {
        const std::vector<OutcomeClass>& classes = input_.posed.readings[planned.index].outcomes;
        const std::vector<Band> room = bands(classes);
        for (std::size_t w = 0; w < all.size(); ++w) {
            const auto shown = static_cast<std::size_t>(all[w].outcome);
            CardOutcome& outcome = step.outcomes[w];
            if (classes[shown].scan) {
                outcome.shows = answering_words(input_.harness, input_.network, classes[shown].answering,
                                                std::numeric_limits<std::size_t>::max());
                continue;
            }
            (classes[shown].volts ? outcome.low_volt : outcome.low_ohm) = room[shown].low;
            (classes[shown].volts ? outcome.high_volt : outcome.high_ohm) = room[shown].high;
        }
    }

    // Of those that end with the outcome.
    std::vector<std::string> parts_of(const std::vector<std::size_t>& alike, int outcome) const {
        std::vector<Index> parts;
        for (const std::size_t at : alike) {
            const PolicyStep& planned = plan_.policy.steps[at];
            if (planned.step == plan::Step::LayBare)
                return {input_.harness.parts[input_.posed.part_of_element[planned.index]].id};
            for (const std::size_t h : planned.suspects) {
                const plan::Hypothesis& hypothesis = plan_.problem.hypotheses[h];
                if (plan_.problem.tests[planned.index].outcome[h] == outcome && hypothesis.probability > 0)
                    parts.push_back(input_.posed.part_of_element[hypothesis.element]);
            }
        }
        std::sort(parts.begin(), parts.end());
        parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
        return ids_of(input_.harness, parts);
    }

    static std::string half_of(const Spot& spot) { return spot.part + "." + spot.half; }

    Left after(const PolicyStep& planned, const Left& left, const CardStep& step) const {
        Left then = left;
        then.half = half_of(step.red);
        access::Site site;
        if (planned.step == plan::Step::Test) {
            const PlannedReading& reading = input_.posed.readings[planned.index];
            then.arrangement = input_.posed.arrangements[reading.arrangement];
            then.standing.off |= then.arrangement.site.need;
            site = reading.site;
        } else {
            then.arrangement.power = electrics::Power::Off;
            site = input_.costs.look(input_.posed.part_of_element[planned.index]);
        }
        then.standing = {site.place, then.standing.off | site.need};
        return then;
    }

    const DealInput& input_;
    const WholePlan& plan_;
    Card& card_;
    std::vector<std::size_t> mark_;  // by step of the plan
};

// The chances of a plan that is about a share of them.
void of_all_hunts(Card& card, double share) {
    for (CardStep& step : card.steps) {
        step.chance *= share;
        step.folded *= share;
        for (CardOutcome& outcome : step.outcomes) outcome.chance *= share;
    }
}

std::vector<CardItem> with_more(std::vector<CardItem> all, const std::vector<CardItem>& more) {
    for (const CardItem& one : more) {
        const auto known = [&](const CardItem& other) { return other.id == one.id; };
        if (std::none_of(all.begin(), all.end(), known)) all.push_back(one);
    }
    return all;
}

std::vector<CardItem> names_of(const std::vector<CoverStep>& covers) {
    std::vector<CardItem> names;
    for (const CoverStep& cover : covers) names.push_back({cover.cover, cover.name});
    return names;
}

}  // namespace

Card begun_card(const harness::Harness& harness, Index network, Index clip, const access::Standing& standing,
                const Aim& aim) {
    Card card;
    card.title = harness.title;
    card.network = harness.networks[network].id;
    card.network_name = harness.networks[network].name;
    card.aim = aim;
    card.place = harness.places[standing.place].name;
    if (clip == none) return card;
    card.clip = point_name(harness, clip);
    card.clip_high = spot_of(harness, diagnosis::at(harness.points[clip].terminal[0]));
    if (harness.points[clip].terminal[1] != none)
        card.clip_low = spot_of(harness, diagnosis::at(harness.points[clip].terminal[1]));
    card.right = right_resistance(harness, network);
    return card;
}

void deal(const DealInput& input, const WholePlan& plan, Card& card) {
    card.quote = quote_of(plan);
    Dealer(input, plan, card).run();
    of_all_hunts(card, plan.share);
    card = folded(card, std::vector<char>(card.steps.size(), 1));
}

std::vector<CardItem> to_refit(const Card& card) {
    std::vector<CardItem> result = card.covers_off;
    for (const CardStep& step : card.steps) {
        for (const Preparation& first : step.prepare) result = with_more(result, names_of(first.covers));
        result = with_more(result, names_of(step.covers));
    }
    return result;
}

std::vector<CardItem> to_reconnect(const Card& card) {
    std::vector<CardItem> result = card.apart;
    for (const CardStep& step : card.steps)
        for (const Preparation& first : step.prepare)
            if (first.step == "unplug") result = with_more(result, {{first.spot.part, first.spot.part_name}});
    return result;
}

}  // namespace halfsplit::advice
