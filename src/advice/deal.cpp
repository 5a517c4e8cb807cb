#include "advice/deal.hpp"

#include "advice/describe.hpp"
#include "advice/preparation.hpp"
#include "advice/reading_bands.hpp"
#include "advice/spot.hpp"

#include <algorithm>
#include <limits>
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
        deal(0, {input_.standing, input_.posed.arrangements.front()});
    }

  private:
    // How things are left by the steps up to here.
    struct Left {
        access::Standing standing;  // in the harness's places
        Arrangement arrangement;
    };

    // The step and all that it leads to; its number. Likely outcomes first, so that a likely hunt goes down
    // the card.
    std::size_t deal(std::size_t at, const Left& left) {
        const PolicyStep& planned = plan_.policy.steps[at];
        const std::vector<PolicyStep::Branch> branches = possible(planned);
        const std::size_t own = card_.steps.size();
        card_.steps.push_back(described(planned, branches, left));
        const Left then = after(planned, left);
        for (const std::size_t b : likeliest_first(branches)) {
            if (branches[b].next == Policy::over || branches[b].chance < least_card_chance) continue;
            const std::size_t number = deal(branches[b].next, then);
            card_.steps[own].outcomes[b].goes_to = number;
        }
        fold_small(planned, branches, card_.steps[own]);
        return own + 1;
    }

    // What is not told leads back to the screen; that a part is the fault is told however small its chance.
    void fold_small(const PolicyStep& planned, const std::vector<PolicyStep::Branch>& branches,
                    CardStep& step) const {
        std::vector<CardOutcome> told;
        for (std::size_t b = 0; b < branches.size(); ++b) {
            CardOutcome& outcome = step.outcomes[b];
            const bool seen = planned.step == plan::Step::LayBare && branches[b].outcome == 0;
            if (seen || branches[b].chance >= least_card_chance) {
                if (branches[b].next == Policy::over) outcome.parts = parts_of(planned, branches[b].outcome);
                told.push_back(std::move(outcome));
            } else {
                step.folded += branches[b].chance;
            }
        }
        step.outcomes = std::move(told);
    }

    static std::vector<PolicyStep::Branch> possible(const PolicyStep& planned) {
        std::vector<PolicyStep::Branch> result;
        for (const PolicyStep::Branch& branch : planned.branches)
            if (branch.chance > 0) result.push_back(branch);
        return result;
    }

    static std::vector<std::size_t> likeliest_first(const std::vector<PolicyStep::Branch>& branches) {
        std::vector<double> chances;
        for (const PolicyStep::Branch& branch : branches) chances.push_back(branch.chance);
        return heaviest_first(chances);
    }

    CardStep described(const PolicyStep& planned, const std::vector<PolicyStep::Branch>& branches,
                       const Left& left) const {
        plan::Option option;
        option.choice.step = planned.step;
        option.choice.index = planned.index;
        for (const PolicyStep::Branch& branch : branches)
            option.outcomes.push_back({branch.outcome, branch.chance, 0, {}});
        Recommendation words;
        Describer(input_.harness, input_.costs, left.standing, words)
            .step(option, input_.posed, left.arrangement);
        CardStep step;
        step.number = card_.steps.size() + 1;
        step.action = words.action;
        step.red = std::move(words.red);
        step.black = std::move(words.black);
        step.target = std::move(words.target);
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
        step.minutes = planned.minutes;
        step.chance = std::min(planned.chance, 1.0);
        for (const Forecast& forecast : words.outcomes)
            step.outcomes.push_back({.shows = forecast.shows,
                                     .answering = forecast.answering,
                                     .chance = std::min(forecast.chance, 1.0)});
        if (planned.step == plan::Step::Test) say_what_the_meter_shows(planned, branches, step);
        return step;
    }

    void say_what_the_meter_shows(const PolicyStep& planned, const std::vector<PolicyStep::Branch>& branches,
                                  CardStep& step) const {
        const std::vector<OutcomeClass>& classes = input_.posed.readings[planned.index].outcomes;
        const std::vector<Band> room = bands(classes);
        for (std::size_t b = 0; b < branches.size(); ++b) {
            const auto shown = static_cast<std::size_t>(branches[b].outcome);
            CardOutcome& outcome = step.outcomes[b];
            if (classes[shown].scan) {
                outcome.shows = answering_words(input_.harness, input_.network, classes[shown].answering,
                                                std::numeric_limits<std::size_t>::max());
                continue;
            }
            (classes[shown].volts ? outcome.low_volt : outcome.low_ohm) = room[shown].low;
            (classes[shown].volts ? outcome.high_volt : outcome.high_ohm) = room[shown].high;
        }
    }

    std::vector<std::string> parts_of(const PolicyStep& planned, int outcome) const {
        std::vector<Index> parts;
        for (const std::size_t h : planned.suspects) {
            const plan::Hypothesis& hypothesis = plan_.problem.hypotheses[h];
            const bool shown = planned.step == plan::Step::LayBare
                                   ? hypothesis.element == planned.index
                                   : plan_.problem.tests[planned.index].outcome[h] == outcome;
            const Index part = input_.posed.part_of_element[hypothesis.element];
            if (!shown || hypothesis.probability <= 0) continue;
            if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
        }
        std::sort(parts.begin(), parts.end());
        return ids_of(input_.harness, parts);
    }

    Left after(const PolicyStep& planned, const Left& left) const {
        Left then = left;
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
};

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
    card.clip_low = spot_of(harness, diagnosis::at(harness.points[clip].terminal[1]));
    return card;
}

void deal(const DealInput& input, const WholePlan& plan, Card& card) {
    card.quote = quote_of(plan);
    Dealer(input, plan, card).run();
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
