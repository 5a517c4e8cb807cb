#include "halfsplit/advice/advisor.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/advice/safety.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/job/words.hpp"
#include "halfsplit/plan/one_step.hpp"

#include <fmt/format.h>

#include "advice/aimed_plan.hpp"
#include "advice/candidates.hpp"
#include "advice/deal.hpp"
#include "advice/describe.hpp"
#include "advice/doubt.hpp"
#include "advice/further.hpp"
#include "advice/problem.hpp"
#include "advice/proof.hpp"
#include "advice/spot.hpp"
#include "advice/standing.hpp"
#include "advice/turning.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace halfsplit::advice {

using diagnosis::Belief;
using diagnosis::Contact;
using harness::Harness;
using harness::Index;
using harness::none;

std::string_view word(Action action) {
    constexpr std::array<std::string_view, 12> words{"intake",         "scan",   "safe-state", "read",
                                                     "look",           "repair", "verify",     "isolated",
                                                     "look-elsewhere", "refit",  "close",      "closed"};
    return words[static_cast<std::size_t>(action)];
}

bool is_hunting(const Recommendation& advice) {
    return advice.action == Action::Read || advice.action == Action::Look ||
           (advice.action == Action::Scan && !advice.outcomes.empty());
}

namespace {

// Faults listed; one below half of what makes a part a suspect is not.
constexpr std::size_t most_listed = 12;
// From here on the bus is taken for sound, once H to L has been read as things stand.
constexpr double sound_enough = 0.995;

// Contacts quieted by reseating are told from here on.
constexpr double worth_telling = 0.1;

class Case {
  public:
    Case(const Harness& harness, Index network, diagnosis::Predictor& predictor, const access::Costs& costs,
         const job::State& state, const Aim& aim)
        : harness_(harness), network_(network), predictor_(predictor), costs_(costs), state_(state) {
        advice_.aim = aim;
        advice_.covers_to_refit = state.covers_off;
        advice_.parts_to_reconnect = state.apart;
        advice_.assumed = assumed(harness, rates(harness, state));
        standing_ = standing_of(harness, network, costs, state);
    }

    Recommendation run() {
        if (state_.closed) return only(Action::Closed);
        if (!state_.intake) return only(Action::Intake);
        if (state_.scans.empty()) return only(Action::Scan);
        if (const Index faulty = seen_faulty(); faulty != none) {
            // Nobody mends a bus that was made live again.
            const bool told_live = state_.safe_state && power_now(state_) != electrics::Power::Off;
            return told_live ? only(Action::SafeState) : repair(faulty);
        }
        if (!state_.repairs.empty() && proof() != Proof::Cured && proof() != Proof::NotCured) return verify();
        if (proof() == Proof::Cured) {
            return only(state_.covers_off.empty() && state_.apart.empty() ? Action::Close : Action::Refit);
        }
        return safe_for_ohms(state_) ? hunt() : before_ohms();
    }

    Left left() {
        Left result;
        result.aim = advice_.aim;
        result.minutes_spent = state_.minutes_spent;
        for (const std::string& id : state_.covers_off) {
            const Index cover = find_cover(harness_, id);
            if (cover != none) result.refit_minutes += harness_.covers[cover].on_minutes;
        }
        result.stage = stage();
        if (result.stage == Left::Stage::Found) result.found = harness_.parts[seen_faulty()].id;
        if (result.stage == Left::Stage::Hunting) {
            take_belief();
            take_what_is_left(result);
        }
        return result;
    }

    Card card() {
        const Index clip = clip_point(harness_, network_, state_);
        Card result = begun_card(harness_, network_, clip, standing_, advice_.aim);
        result.scanned = !state_.scans.empty();
        result.assumed = advice_.assumed;
        for (const std::string& id : state_.covers_off) {
            const Index cover = find_cover(harness_, id);
            result.covers_off.push_back({id, cover == none ? id : harness_.covers[cover].name});
        }
        for (const std::string& id : state_.apart) {
            const Index part = find_part(harness_, id);
            result.apart.push_back({id, part == none ? id : harness_.parts[part].name});
        }
        result.stage = stage();
        if (result.stage == Left::Stage::Found) result.found = harness_.parts[seen_faulty()].id;
        if (result.stage != Left::Stage::Hunting) return result;
        take_belief();
        take_posed();
        const WholePlan plan = whole_plan(posed_, advice_.aim, least_card_chance);
        if (advice_.nothing_wrong >= sound_enough || plan.policy.steps.empty()) {
            result.stage = nothing_to_find();
            return result;
        }
        deal({harness_, network_, costs_, standing_, posed_}, plan, result);
        return result;
    }

    std::vector<plan::ByRule> beside_rules() {
        if (stage() != Left::Stage::Hunting) return {};
        take_belief();
        take_posed();
        const WholePlan plan = whole_plan(posed_, advice_.aim, least_card_chance);
        if (advice_.nothing_wrong >= sound_enough || plan.policy.steps.empty()) return {};
        return plan::beside_rules(plan.problem, plan.policy.solution.best);
    }

  private:
    Left::Stage nothing_to_find() const {
        return !suspects_untold().empty() ? Left::Stage::NotTold : Left::Stage::NothingFound;
    }

    // Hunting, where nothing says otherwise before anything is planned.
    Left::Stage stage() const {
        if (state_.closed || proof() == Proof::Cured) return Left::Stage::Cured;
        if (seen_faulty() != none) return Left::Stage::Found;
        return !state_.repairs.empty() && proof() != Proof::NotCured ? Left::Stage::Mended
                                                                     : Left::Stage::Hunting;
    }

    void take_what_is_left(Left& result) {
        const plan::Recommendation plan = planned();
        const auto steps = real_steps(plan, posed_);
        if (steps.empty() || advice_.nothing_wrong >= sound_enough) {
            result.stage = nothing_to_find();
            return;
        }
        result.quote = quote_of(plan, *steps.front(), posed_);
        result.not_cured = not_cured(harness_, posed_);
        const auto hunts = minutes_by_part(*steps.front(), posed_, harness_.parts.size());
        const auto by_part = diagnosis::by_part(belief_, harness_);
        for (Index part = 0; part < by_part.size(); ++part) {
            if (by_part[part] < suspect_chance) continue;
            result.costly.push_back(
                {harness_.parts[part].id, harness_.parts[part].name,
                 costs_.workshop().reach(costs_.look(part), standing_.place, standing_.off), by_part[part],
                 hunts[part]});
        }
        std::stable_sort(result.costly.begin(), result.costly.end(),
                         [](const CostlyPart& a, const CostlyPart& b) { return a.minutes > b.minutes; });
    }

    Describer describer() { return {harness_, costs_, standing_, advice_}; }

    Recommendation only(Action action) {
        advice_.action = action;
        return advice_;
    }

    // A repair is proven with everything plugged in.
    Recommendation verify() {
        take_belief();
        for (const Index part : evidence_.now.apart) {
            access::Site site = costs_.look(part);
            site.minutes = harness_.assumptions.remate_minutes;
            describer().prepare({}, {.step = ArrangingStep::PlugIn, .part = part, .site = site});
        }
        return only(Action::Verify);
    }

    // The part last seen to be faulty, while no repair has followed.
    Index seen_faulty() const {
        if (state_.seen.empty()) return none;
        const job::SeenPart& last = state_.seen.back();
        if (last.seen.verdict != job::Verdict::Faulty || last.repairs != state_.repairs.size()) return none;
        return find_part(harness_, last.seen.part);
    }

    Proof proof() const {
        return state_.verified ? proof_of(*state_.verified, harness_, network_) : Proof::None;
    }

    Recommendation repair(Index part) {
        take_belief();
        advice_.action = Action::Repair;
        advice_.target = spot_of_part(harness_, part);
        describer().approach(costs_.look(part), standing_);
        return advice_;
    }

    void take_belief() {
        evidence_ = evidence(harness_, network_, state_);
        belief_ = infer(predictor_, evidence_);
        advice_.nothing_wrong = diagnosis::nothing_wrong(belief_, harness_);
        advice_.two_faults = belief_.pairs;
        advice_.comes_and_goes = belief_.comes_and_goes;
        take_quieted();
        for (const diagnosis::Suspect& suspect : diagnosis::suspects(belief_, harness_)) {
            if (suspect.probability < suspect_chance / 2 || advice_.suspects.size() == most_listed) break;
            const harness::Part& part = harness_.parts[suspect.fault.part];
            advice_.suspects.push_back({part.id, part.name, diagnosis::name(harness_, suspect.fault),
                                        diagnosis::in_words(harness_, suspect.fault), suspect.probability});
        }
        const auto by_part = diagnosis::by_part(belief_, harness_);
        advice_.parts = leading_parts(harness_, by_part);
        take_cleared(by_part);
        take_located();
        advice_.doubts = unsettled_doubts(harness_, evidence_, belief_, costs_, standing_, predictor_);
    }

    // Contacts that are quiet since they were taken apart and together: still the fault, as likely as not.
    void take_quieted() {
        std::vector<double> quiet(harness_.parts.size(), 0);
        for (std::size_t i = 0; i < belief_.explanations.size(); ++i) {
            const diagnosis::Explanation& own = belief_.explanations[i];
            const auto left = unmended(harness_, own, belief_.now);
            if (left.size() > remaining(harness_, own, belief_.now).size())
                quiet[left.front().part] += belief_.probability[i];
        }
        for (PartChance& part : leading_parts(harness_, quiet)) {
            if (part.probability >= worth_telling) advice_.quieted.push_back(std::move(part));
        }
    }

    // Distances in the state that the bus is in since the last repair, oldest first.
    void take_located() {
        for (const job::TakenDistance& taken : state_.distances) {
            const auto own =
                std::find_if(evidence_.located.begin(), evidence_.located.end(),
                             [&](const auto& located) { return located.sequence == taken.sequence; });
            if (taken.state.repairs != state_.repairs.size() || own == evidence_.located.end()) continue;
            const job::Distance& distance = taken.distance;
            advice_.located.push_back(
                {taken.sequence, distance.from, distance.to, distance.metres, distance.deviation,
                 distance.run, distance.run_end, distance.metres_into_run, distance.also,
                 diagnosis::counts(*own, predictor_), job::where_it_lies(distance, harness_)});
        }
    }

    // Below half a percent, and a twentieth of what it was before anything was read.
    void take_cleared(const std::vector<double>& by_part) {
        const auto before = diagnosis::by_part(
            infer(predictor_, {.now = {.apart = evidence_.now.apart}, .rates = evidence_.rates}), harness_);
        for (Index part = 0; part < by_part.size(); ++part) {
            if (before[part] > 0 && by_part[part] < 0.005 && by_part[part] < before[part] / 20) {
                advice_.cleared.push_back(harness_.parts[part].id);
            }
        }
    }

    Recommendation hunt() {
        take_belief();
        if (advice_.nothing_wrong >= sound_enough && whole_bus_was_read()) return only(Action::LookElsewhere);
        if (!take_plan(planned()))
            return only(advice_.aim.isolate || !suspects_untold().empty() ? Action::Isolated
                                                                          : Action::LookElsewhere);
        advice_.cannot_tell = what_cannot_be_told();
        return advice_;
    }

    plan::Recommendation planned() {
        plan::Recommendation at_rest = planned(false);
        if (belief_.comes_and_goes < worth_moving) return at_rest;
        Posed posed_at_rest = std::move(posed_);
        plan::Recommendation moved = planned(true);
        if (least(moved) <= least(at_rest)) return moved;
        posed_ = std::move(posed_at_rest);
        return at_rest;
    }

    static double least(const plan::Recommendation& plan) {
        return plan.options.empty() ? std::numeric_limits<double>::infinity()
                                    : plan.options.front().choice.expected_minutes;
    }

    // With the loom moved or at rest, whichever advice would take.
    void take_posed() {
        if (belief_.comes_and_goes < worth_moving)
            take_posed(false);
        else
            planned();
    }

    void take_posed(bool moves_loom) {
        posed_ = pose({{harness_, network_, belief_, costs_, standing_,
                        clip_point(harness_, network_, state_), power_now(state_), scanned()},
                       barred(),
                       unreachable(),
                       moves_loom,
                       untold()},
                      predictor_);
    }

    plan::Recommendation planned(bool moves_loom) {
        take_posed(moves_loom);
        return plan_for(posed_, advice_.aim);
    }

    // While the bus is live, volts come first where they are the best that can be done. Everything else waits
    // for the safe state, looks as well.
    Recommendation before_ohms() {
        Recommendation safe_state = only(Action::SafeState);
        if (power_now(state_) == electrics::Power::Off) return safe_state;
        take_belief();
        const bool may_tell = volts_may_tell(harness_, network_, belief_);
        if (may_tell && take_plan(planned()) && advice_.action == Action::Read &&
            advice_.quantity == "volt") {
            advice_.cannot_tell = what_the_last_reading_cannot_tell();
            return advice_;
        }
        return safe_state;
    }

    // Where the red lead, the one that is carried about, did not get to.
    std::vector<Index> unreachable() const {
        std::vector<Index> result;
        for (const job::TakenReading& taken : state_.readings) {
            if (taken.reading.outcome != job::Outcome::CouldNotReach) continue;
            const auto red = contact_named(harness_, taken.reading.red);
            if (red && red->terminal != none) result.push_back(red->terminal);
        }
        return result;
    }

    // Parts that a look did not tell about, or that nobody got to, since the last repair.
    std::vector<Index> untold() const {
        std::vector<Index> result;
        for (const job::SeenPart& own : state_.seen)
            if (!tells(own.seen.verdict) && own.repairs == state_.repairs.size())
                result.push_back(find_part(harness_, own.seen.part));
        return result;
    }

    // Those of them that are suspected, in words: "X1 (74 %)".
    std::vector<std::string> suspects_untold() const {
        const std::vector<Index> parts = untold();
        std::vector<std::string> words;
        for (const PartChance& own : advice_.parts)
            if (std::find(parts.begin(), parts.end(), find_part(harness_, own.part)) != parts.end())
                words.push_back(fmt::format("{} ({})", own.part, format_chance(own.probability)));
        return words;
    }

    std::string what_cannot_be_told() const {
        const std::vector<std::string> parts = suspects_untold();
        if (parts.empty()) return what_the_last_reading_cannot_tell();
        return fmt::format("No look told about {}; the plan is for what else it may be.", join(parts, ", "));
    }

    // Readings that are not asked for as things stand: what could not be reached, and what was taken twice
    // already. A reading that comes out the same a second time is not going to tell more the third time.
    std::vector<AskedReading> barred() const {
        std::vector<AskedReading> result;
        for (const diagnosis::Measured& taken : evidence_.measured) {
            const AskedReading asked{taken.tips, taken.power(), taken.provoked};
            if (times_taken(asked) >= 2) result.push_back(asked);
        }
        return result;
    }

    bool scanned() const {
        return std::any_of(evidence_.scanned.begin(), evidence_.scanned.end(),
                           [&](const auto& scan) { return scan.situation == belief_.now; });
    }

    // H to L at the clip; on a single line any reading of it.
    bool whole_bus_was_read() const {
        const auto& clip = harness_.points[clip_point(harness_, network_, state_)].terminal;
        if (clip[1] == none) {
            return std::any_of(evidence_.measured.begin(), evidence_.measured.end(),
                               [&](const auto& taken) { return taken.situation == belief_.now; });
        }
        return taken_before({{diagnosis::at(clip[0]), diagnosis::at(clip[1])}});
    }

    // False when the plan holds no step but giving up.
    bool take_plan(const plan::Recommendation& plan) {
        const std::vector<const plan::Option*> options = real_steps(plan, posed_);
        if (options.empty()) return false;
        const plan::Option& best = *options.front();
        advice_.quote = quote_of(plan, best, posed_);
        advice_.minutes_now = best.choice.minutes_now;
        describer().step(best, posed_, posed_.arrangements.front());
        advice_.recheck = recheck(best);
        advice_.move_loom = posed_.moves_loom && advice_.action == Action::Read;
        for (std::size_t i = 1; i < options.size() && advice_.alternatives.size() < 2; ++i) {
            describer().alternative(*options[i], posed_);
        }
        if (options.size() > 1 && advice_.aim == Aim{.isolate = advice_.aim.isolate})
            advice_.turning_points = turning_points(harness_, posed_, best, *options[1]);
        for (TurningPoint& point : advice_.turning_points)
            point.instead = in_words(advice_.alternatives.front());
        return true;
    }

    bool recheck(const plan::Option& option) const {
        if (option.choice.step != plan::Step::Test) return false;
        const PlannedReading& reading = posed_.readings[option.choice.index];
        const Arrangement& arrangement = posed_.arrangements[reading.arrangement];
        return !arrangement.scan && arrangement.step == ArrangingStep::None &&
               taken_before({reading.tips, arrangement.power, posed_.moves_loom});
    }

    // In the state the bus is in now.
    std::ptrdiff_t times_taken(const AskedReading& asked) const {
        return std::count_if(evidence_.measured.begin(), evidence_.measured.end(),
                             [&](const diagnosis::Measured& taken) {
                                 return asked == AskedReading{taken.tips, taken.power(), taken.provoked} &&
                                        taken.situation == belief_.now;
                             });
    }

    bool taken_before(const AskedReading& asked) const { return times_taken(asked) > 0; }

    // H to L of a bus with both terminators reads alike at every point for every open: said when it was just
    // read, and is so for what is suspected now.
    std::string what_the_last_reading_cannot_tell() const {
        if (evidence_.measured.empty() || advice_.parts.size() < 2) return {};
        const diagnosis::Measured& last = evidence_.measured.back();
        if (last.volts) return what_volts_cannot_tell(*last.volts);
        const auto h_to_l = pairs_of_points(harness_, network_);
        const bool whole_pair = std::find(h_to_l.begin(), h_to_l.end(), last.tips) != h_to_l.end();
        if (!whole_pair || !(last.situation == belief_.now) || !alike(h_to_l)) return {};
        return fmt::format(
            "H to L cannot tell these {} suspects apart: as things stand it reads alike for nearly all that "
            "could be "
            "wrong with them, at every point. H to H and L to L can.",
            advice_.parts.size());
    }

    // At rest or talking, as a sound bus would be.
    static std::string what_volts_cannot_tell(const diagnosis::VoltObservation& seen) {
        const bool free = seen.awake ? seen.volt > diagnosis::dominant_low_volt - 0.3 &&
                                           seen.volt < diagnosis::dominant_high_volt + 0.3
                                     : std::abs(seen.volt) < 0.3;
        if (!free) return {};
        return "Volts see neither an open nor a short from H to L: the bus stands as a sound one would. Ohms "
               "can.";
    }

    // Whether each of the readings comes out the same for nine tenths of what may be wrong.
    bool alike(const std::vector<diagnosis::Tips>& tips) const {
        constexpr double nine_tenths = 0.9;
        std::vector<double> least(tips.size(), electrics::open_circuit), most(tips.size(), 0);
        double weighed = 0;
        for (const std::size_t i : heaviest_first(belief_.probability)) {
            if (weighed >= nine_tenths * (1 - advice_.nothing_wrong)) break;
            if (remaining(harness_, belief_.explanations[i], belief_.now).empty()) continue;
            weighed += belief_.probability[i];
            const auto ohms = predictor_.ohms(belief_.explanations[i], belief_.now, tips);
            for (std::size_t t = 0; t < tips.size(); ++t) {
                if (std::isnan(ohms[t])) continue;
                least[t] = std::min(least[t], ohms[t]);
                most[t] = std::max(most[t], ohms[t]);
            }
        }
        for (std::size_t t = 0; t < tips.size(); ++t) {
            if (least[t] <= most[t] && diagnosis::distinguishable(least[t], most[t])) return false;
        }
        return true;
    }

    const Harness& harness_;
    Index network_;
    diagnosis::Predictor& predictor_;
    const access::Costs& costs_;
    const job::State& state_;
    access::Standing standing_;
    diagnosis::Evidence evidence_;
    Belief belief_;
    Posed posed_;
    Recommendation advice_;
};

}  // namespace

Advisor::Advisor(const Harness& harness, Index network)
    : harness_(harness), network_(network), predictor_(harness, network), costs_(harness, network) {}

Recommendation Advisor::advise(const job::State& state, const Aim& aim) {
    return Case(harness_, network_, predictor_, costs_, state, aim).run();
}

Left Advisor::left(const job::State& state, const Aim& aim) {
    return Case(harness_, network_, predictor_, costs_, state, aim).left();
}

std::vector<plan::ByRule> Advisor::beside_rules(const job::State& state, const Aim& aim) {
    return Case(harness_, network_, predictor_, costs_, state, aim).beside_rules();
}

Card Advisor::card(const job::State& state, const Aim& aim) {
    return Case(harness_, network_, predictor_, costs_, state, aim).card();
}

Belief Advisor::believe(const job::State& state) {
    return infer(predictor_, evidence(harness_, network_, state));
}

}  // namespace halfsplit::advice
