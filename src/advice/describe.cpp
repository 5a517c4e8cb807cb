#include "advice/describe.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/base/ranking.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/harness/vehicle.hpp"

#include <fmt/format.h>

#include "advice/preparation.hpp"
#include "advice/spot.hpp"
#include "advice/volt_outcomes.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <string>
#include <utility>

namespace halfsplit::advice {

using harness::Index;
using harness::none;

std::vector<PartChance> leading_parts(const harness::Harness& harness, const std::vector<double>& by_part) {
    std::vector<PartChance> result;
    for (Index part = 0; part < by_part.size(); ++part) {
        if (by_part[part] >= suspect_chance)
            result.push_back({harness.parts[part].id, harness.parts[part].name, by_part[part]});
    }
    std::stable_sort(result.begin(), result.end(), [](const PartChance& a, const PartChance& b) {
        return likelier(a.probability, b.probability);
    });
    return result;
}

void Describer::step(const plan::Option& option, const Posed& posed, const Arrangement& now) {
    if (option.choice.step == plan::Step::Test)
        test(option, posed, now);
    else
        look(option, posed, now.power);
}

namespace {

// Where traffic moves the line that is read against ground.
diagnosis::TipVolts::Pulled pulled(const PlannedReading& planned, const Arrangement& arrangement,
                                   const harness::Harness& harness) {
    using Pulled = diagnosis::TipVolts::Pulled;
    if (arrangement.power != electrics::Power::Awake) return Pulled::Nowhere;
    const bool high = harness.terminals[planned.tips.red.terminal].line == harness::Line::High;
    return high ? Pulled::Up : Pulled::Down;
}

// What comes before the reading, in a line, in order: nothing is unplugged on a live bus.
std::string preparations(const harness::Harness& harness, const Arrangement& arrangement,
                         electrics::Power now) {
    std::vector<std::string> steps;
    if (const auto first = switching(harness, now, arrangement.power)) steps.push_back(in_words(*first));
    if (arrangement.step != ArrangingStep::None) steps.push_back(in_words(preparation(harness, arrangement)));
    if (arrangement.power != electrics::Power::Off) std::reverse(steps.begin(), steps.end());
    return join(steps, ", ");
}

// Words of a line that a small screen holds.
constexpr std::size_t most_answering = 3;

bool together_alike(const Arrangement& a, const Arrangement& b) {
    return a.step == b.step && a.part == b.part && a.clip == b.clip;
}

// Takes back what was arranged: with `then` things are otherwise.
Arrangement taken_back(const Arrangement& arranged, const Arrangement& then) {
    const bool unplugged = arranged.step == ArrangingStep::Unplug;
    const bool clip_moved = arranged.step == ArrangingStep::MoveClip;
    Arrangement back;
    back.step = clip_moved  ? ArrangingStep::MoveClip
                : unplugged ? ArrangingStep::PlugIn
                            : ArrangingStep::Unplug;
    back.part = arranged.part;
    back.clip = then.clip;
    back.site = {arranged.back_place, 0, arranged.back_minutes};
    return back;
}

}  // namespace

std::string answering_words(const harness::Harness& harness, Index network,
                            const std::vector<Index>& answering, std::size_t most) {
    if (answering.empty()) return "nobody answers";
    const std::vector<Index> modules = harness::modules_on(harness, network);
    std::vector<Index> silent;
    std::set_difference(modules.begin(), modules.end(), answering.begin(), answering.end(),
                        std::back_inserter(silent));
    if (silent.empty()) return "all answer";
    const bool name_silent =
        answering.size() > std::min(most, most_answering) && silent.size() < answering.size();
    std::vector<std::string> named = ids_of(harness, name_silent ? silent : answering);
    std::string more;
    if (named.size() > most) {
        more = fmt::format(" and {} more", named.size() - most);
        named.resize(most);
    }
    return (name_silent ? "all but " : "") + join(named, ", ") + more + " answer";
}

void Describer::test(const plan::Option& option, const Posed& posed, const Arrangement& now) {
    const PlannedReading& planned = posed.readings[option.choice.index];
    const Arrangement& arrangement = posed.arrangements[planned.arrangement];
    advice_.action = arrangement.scan ? Action::Scan : Action::Read;
    if (!arrangement.scan) {
        advice_.red = spot_of(harness_, planned.tips.red);
        advice_.black = spot_of(harness_, planned.tips.black);
        mark_clip(arrangement.clip);
    }
    if (arrangement.power != electrics::Power::Off) {
        if (!arrangement.scan) advice_.quantity = "volt";
        advice_.bus = arrangement.power == electrics::Power::Awake ? "awake" : "asleep";
    }
    approach(planned.site, prepare(now, arrangement));
    for (const plan::OutcomeView& outcome : option.outcomes) {
        const OutcomeClass& shows = planned.outcomes[static_cast<std::size_t>(outcome.outcome)];
        if (outcome.chance <= 0) continue;
        advice_.outcomes.push_back(forecast(outcome, shows, posed));
        if (shows.volts)
            advice_.outcomes.back().shows = in_words(shows, pulled(planned, arrangement, harness_));
        if (shows.scan) {
            advice_.outcomes.back().shows = answering_words(
                harness_, harness_.points[arrangement.clip].network, shows.answering, most_answering);
            advice_.outcomes.back().answering = ids_of(harness_, shows.answering);
        }
    }
}

void Describer::look(const plan::Option& option, const Posed& posed, electrics::Power now) {
    const Index part = posed.part_of_element[option.choice.index];
    advice_.action = Action::Look;
    advice_.target = spot_of_part(harness_, part);
    switch_over(now, electrics::Power::Off);
    approach(costs_.look(part), standing_);
    for (const plan::OutcomeView& outcome : option.outcomes) {
        Forecast view = forecast(outcome, {}, posed);
        constexpr std::array<std::string_view, 3> shows{"it is the fault", "it is not",
                                                        "it is a fault, and not the only one"};
        view.shows = shows.at(static_cast<std::size_t>(outcome.outcome));
        advice_.outcomes.push_back(std::move(view));
    }
}

std::string in_words(const Alternative& other) {
    std::string what = other.action == Action::Look   ? "look at " + other.part
                       : other.action == Action::Scan ? "ask who answers"
                                                      : other.red + " to " + other.black;
    if (other.quantity == "volt") what += ", volts";
    if (!other.prepare.empty()) what.insert(0, other.prepare + ", then ");
    return what;
}

void Describer::alternative(const plan::Option& option, const Posed& posed) {
    Alternative other;
    other.expected_minutes = option.choice.expected_minutes;
    other.more_minutes = option.choice.expected_minutes - advice_.quote.expected_minutes;
    other.more_worst_minutes = option.choice.worst_minutes - advice_.quote.worst_minutes;
    if (option.choice.step == plan::Step::Test) {
        const PlannedReading& planned = posed.readings[option.choice.index];
        const Arrangement& arrangement = posed.arrangements[planned.arrangement];
        if (arrangement.scan) {
            other.action = Action::Scan;
        } else {
            other.red = name_of(harness_, planned.tips.red);
            other.black = name_of(harness_, planned.tips.black);
            if (arrangement.power != electrics::Power::Off) other.quantity = "volt";
        }
        other.prepare = preparations(harness_, arrangement, posed.arrangements.front().power);
    } else {
        other.action = Action::Look;
        other.part = harness_.parts[posed.part_of_element[option.choice.index]].id;
    }
    advice_.alternatives.push_back(std::move(other));
}

access::Standing Describer::prepare(const Arrangement& now, const Arrangement& then) {
    if (together_alike(now, then)) {
        switch_over(now.power, then.power);
        return standing_;
    }
    switch_over(now.power, electrics::Power::Off);
    access::Standing at = standing_;
    const bool clip_alone = now.step == ArrangingStep::MoveClip && then.step == now.step;
    if (now.step != ArrangingStep::None && !clip_alone) at = arrange(taken_back(now, then), at);
    if (then.step != ArrangingStep::None) at = arrange(then, at);
    switch_over(electrics::Power::Off, then.power);
    return at;
}

void Describer::switch_over(electrics::Power now, electrics::Power then) {
    if (auto switched = switching(harness_, now, then)) advice_.prepare.push_back(std::move(*switched));
}

access::Standing Describer::arrange(const Arrangement& arrangement, const access::Standing& from) {
    const access::Site& site = arrangement.site;
    Preparation step = preparation(harness_, arrangement);
    if (site.place != from.place) step.travel_to = harness_.places[site.place].name;
    step.travel_minutes = costs_.workshop().travel(from.place, site.place);
    const auto covers = costs_.to_take_off(site, from.off);
    step.covers = cover_steps(harness_, covers);
    add_cautions(site.place, covers);
    advice_.prepare.push_back(std::move(step));
    return {site.place, from.off | site.need};
}

void Describer::approach(const access::Site& site, const access::Standing& from) {
    if (site.place != from.place) advice_.travel_to = harness_.places[site.place].name;
    advice_.travel_minutes = costs_.workshop().travel(from.place, site.place);
    const auto covers = costs_.to_take_off(site, from.off);
    advice_.covers = cover_steps(harness_, covers);
    add_cautions(site.place, covers);
}

void Describer::add_cautions(Index place, const std::vector<Index>& covers) {
    auto& told = advice_.cautions;
    for (std::string& caution : cautions(harness_, place, covers)) {
        if (std::find(told.begin(), told.end(), caution) == told.end()) told.push_back(std::move(caution));
    }
}

void Describer::mark_clip(Index clip_point) {
    const std::vector<Index> clip = terminals_of(harness_.points[clip_point]);
    const auto on_clip = [&](const std::string& name) {
        return std::any_of(clip.begin(), clip.end(),
                           [&](Index terminal) { return terminal_name(harness_, terminal) == name; });
    };
    advice_.red.clip = on_clip(advice_.red.name);
    advice_.black.clip = on_clip(advice_.black.name);
}

Forecast Describer::forecast(const plan::OutcomeView& outcome, const OutcomeClass& shows,
                             const Posed& posed) const {
    Forecast view;
    view.shows = in_words(shows);
    view.low_ohm = shows.low_ohm;
    view.high_ohm = shows.high_ohm;
    view.low_volt = shows.low_volt;
    view.high_volt = shows.high_volt;
    view.chance = outcome.chance;
    view.minutes_left = outcome.expected_minutes_left;
    std::vector<double> by_part(harness_.parts.size(), 0);
    for (std::size_t i = 0; i < outcome.posterior.size(); ++i) {
        const Index part = posed.part_of_element[posed.problem.hypotheses[i].element];
        if (part != none) by_part[part] += outcome.posterior[i];
    }
    view.leading = leading_parts(harness_, by_part);
    view.suspects_left = view.leading.size();
    if (view.leading.size() > 3) view.leading.resize(3);
    return view;
}

}  // namespace halfsplit::advice
