#include "halfsplit/session/rehearsal.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/advice/granted.hpp"
#include "halfsplit/advice/recommendation_json.hpp"
#include "halfsplit/base/finding.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/diagnosis/silence.hpp"
#include "halfsplit/diagnosis/volts.hpp"
#include "halfsplit/job/event_json.hpp"
#include "halfsplit/job/implied.hpp"
#include "halfsplit/job/state.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <limits>
#include <set>

namespace halfsplit::session {

using advice::Action;
using advice::Recommendation;
using diagnosis::Explanation;
using harness::Harness;
using harness::Index;

namespace {

// splitmix64 (Steele, Lea, Flood 2014): the same numbers on every machine.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}
    double roll() {
        std::uint64_t z = (state_ += 0x9e3779b97f4a7c15ULL);
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
        return static_cast<double>((z ^ (z >> 31U)) >> 11U) * 0x1.0p-53;
    }

  private:
    std::uint64_t state_;
};

// What a meter's display makes of it: three digits, a tenth of an ohm at best.
double displayed(double ohm) {
    if (!(ohm < diagnosis::meter_limit_ohm)) return std::numeric_limits<double>::infinity();
    const double step = ohm < 100 ? 0.1 : std::pow(10.0, std::floor(std::log10(ohm)) - 2);
    return std::round(ohm / step) * step;
}

// What a voltmeter's display makes of it: hundredths. Its own 10 Mohm draw a floating line to 0 V.
double displayed_volt(double volt) {
    const double shown = std::round(volt * 100) / 100;
    return std::isnan(volt) || shown == 0 ? 0 : shown;
}

job::RepairAction mending(diagnosis::Mode mode) {
    switch (mode) {
        case diagnosis::Mode::Apart:
            return job::RepairAction::Reseated;
        case diagnosis::Mode::BridgeAbsent:
            return job::RepairAction::BridgePlugFitted;
        case diagnosis::Mode::BadJoint:
            return job::RepairAction::Cleaned;
        case diagnosis::Mode::TerminatorMissing:
        case diagnosis::Mode::PassThroughOpen:
            return job::RepairAction::Replaced;
        default:
            return job::RepairAction::Repaired;
    }
}

// The technician of a rehearsal: answers each piece of advice from the truth.
class Player {
  public:
    Player(const Harness& harness, Index network, diagnosis::Predictor& predictor, const MadeUp& truth,
           const PlayOptions& options)
        : harness_(harness),
          network_(network),
          predictor_(predictor),
          truth_(truth),
          options_(options),
          dice_(options.seed),
          explanation_{.variant = truth.variant, .faults = truth.faults} {}

    // The events that answer the advice, with what they take for granted; empty when there is nothing to do.
    std::vector<job::Body> answer(const Recommendation& advice, const job::State& state) {
        situation_ = prepared(advice, state);
        std::vector<job::Body> bodies = answer_as_prepared(advice, state);
        if (!bodies.empty()) {
            const auto first = advice::granted(advice, bodies.front());
            bodies.insert(bodies.begin(), first.begin(), first.end());
        }
        return bodies;
    }

  private:
    std::vector<job::Body> answer_as_prepared(const Recommendation& advice, const job::State& state) {
        switch (advice.action) {
            case Action::Intake:
                return {job::Intake{.complaint = "rehearsal against a made-up fault"}};
            case Action::Scan:
                return {scan()};
            case Action::SafeState:
                return {job::SafeState{true, true, true, 10}};
            case Action::Read:
                return {read(advice)};
            case Action::Look:
                return {look(advice)};
            case Action::Repair:
                return {job::Repair{advice.target.part, mending_of(advice.target.part), ""}};
            case Action::Verify:
                return {prove(state)};
            case Action::Refit:
                return put_back(advice);
            case Action::Close:
                return {job::Closed{}};
            case Action::Isolated:
            case Action::LookElsewhere:
            case Action::Closed:
                break;
        }
        return {};
    }

    // How the bus is arranged once the advice's preparations are done.
    diagnosis::Situation prepared(const Recommendation& advice, const job::State& state) const {
        const auto evidence = advice::evidence(harness_, network_, state);
        diagnosis::Situation situation = evidence.now;
        auto& apart = situation.apart;
        for (const advice::Preparation& first : advice.prepare) {
            const Index part = find_part(harness_, first.spot.part);
            if (first.step == "unplug")
                apart.insert(std::upper_bound(apart.begin(), apart.end(), part), part);
            if (first.step == "plug") apart.erase(std::remove(apart.begin(), apart.end(), part), apart.end());
        }
        return situation;
    }

    // What cannot happen takes no number from the dice.
    bool happens(double chance) { return chance > 0 && dice_.roll() < chance; }

    double ohm(const diagnosis::Tips& tips) {
        return predictor_.ohms(explanation_, situation_, {tips}).front();
    }

    // Each module answers or not, whichever is likelier with the fault in.
    job::Answers scan() {
        job::Answers answers;
        for (const auto& module : predictor_.circuit(truth_.variant).assembly.modules) {
            const double silent = diagnosis::likelihood({.answering = {}, .silent = {module.part}},
                                                        explanation_, situation_, predictor_);
            (silent > 0.5 ? answers.silent : answers.answering).push_back(harness_.parts[module.part].id);
        }
        return answers;
    }

    // On a bus at rest: nobody talks in a rehearsal.
    job::Reading read_volts(const Recommendation& advice) {
        job::Reading reading{
            .red = advice.red.name, .black = advice.black.name, .quantity = job::Quantity::Volt};
        const auto red = advice::contact_named(harness_, reading.red);
        const auto black = advice::contact_named(harness_, reading.black);
        const auto predicted = diagnosis::predict_volts(predictor_, explanation_, situation_,
                                                        {{*red, *black}}, advice.bus == "awake");
        const auto volt = at_rest(predicted.front());
        if (!volt) {
            reading.outcome = job::Outcome::CouldNotReach;
            return reading;
        }
        const bool slipped = happens(options_.slips);
        reading.value = slipped ? 0 : displayed_volt(*volt);
        return reading;
    }

    job::Reading read(const Recommendation& advice) {
        if (advice.quantity == "volt") return read_volts(advice);
        job::Reading reading{.red = advice.red.name, .black = advice.black.name};
        const auto red = advice::contact_named(harness_, reading.red);
        const auto black = advice::contact_named(harness_, reading.black);
        const double value = ohm({*red, *black});
        if (std::isnan(value)) {
            reading.outcome = job::Outcome::CouldNotReach;
            return reading;
        }
        const bool slipped = happens(options_.slips);
        reading.value = slipped ? std::numeric_limits<double>::infinity() : displayed(value);
        const bool wrong = !advice.red.others.empty() && happens(options_.wrong_wires);
        if (wrong) reading.value = displayed(at_another_wire(advice.red, *black));
        return reading;
    }

    // A wire of the bus reads as it is; one of another circuit may read anything, and is open half the time.
    double at_another_wire(const advice::Spot& red, const diagnosis::Contact& black) {
        const auto count = static_cast<double>(red.others.size());
        const advice::OtherWire& other = red.others[static_cast<std::size_t>(dice_.roll() * count)];
        const auto contact =
            advice::contact_named(harness_, fmt::format("{}.{}:{}", red.part, red.half, other.cavity));
        if (contact && contact->terminal != harness::none) {
            const double value = ohm({*contact, black});
            if (!std::isnan(value)) return value;
        }
        if (dice_.roll() < 0.5) return std::numeric_limits<double>::infinity();
        constexpr double least = 0.1, decades = 7;
        return least * std::pow(10.0, decades * dice_.roll());
    }

    job::Seen look(const Recommendation& advice) {
        const std::string& part = advice.target.part;
        for (const diagnosis::Fault& fault : remaining(harness_, explanation_, situation_)) {
            if (harness_.parts[fault.part].id != part) continue;
            if (happens(options_.missed_faults)) return {part, job::Verdict::Sound, ""};
            return {part, job::Verdict::Faulty, diagnosis::in_words(harness_, fault)};
        }
        if (happens(options_.false_alarms)) return {part, job::Verdict::Faulty, ""};
        return {part, job::Verdict::Sound, ""};
    }

    job::RepairAction mending_of(const std::string& part) const {
        for (const diagnosis::Fault& fault : truth_.faults) {
            if (harness_.parts[fault.part].id == part) return mending(fault.mode);
        }
        return job::RepairAction::Repaired;
    }

    job::Verified prove(const job::State& state) {
        const bool cured = remaining(harness_, explanation_, situation_).empty();
        return {h_to_l(state), scan().silent.empty(), cured, cured};
    }

    // On a single line there is nothing to read it from.
    std::optional<double> h_to_l(const job::State& state) {
        const auto& clip = harness_.points[advice::clip_point(harness_, network_, state)].terminal;
        if (clip[1] == harness::none) return std::nullopt;
        return displayed(ohm({diagnosis::at(clip[0]), diagnosis::at(clip[1])}));
    }

    static std::vector<job::Body> put_back(const Recommendation& advice) {
        std::vector<job::Body> result;
        for (const std::string& part : advice.parts_to_reconnect)
            result.emplace_back(job::PlugChange{part, true, false});
        for (const std::string& cover : advice.covers_to_refit) {
            result.emplace_back(job::CoverChange{cover, false, false});
        }
        return result;
    }

    const Harness& harness_;
    Index network_;
    diagnosis::Predictor& predictor_;
    const MadeUp& truth_;
    const PlayOptions& options_;
    Dice dice_;
    Explanation explanation_;
    diagnosis::Situation situation_;
};

}  // namespace

Rehearsal::Rehearsal(const Harness& harness, Index network)
    : harness_(harness), network_(network), advisor_(harness, network), predictor_(harness, network) {}

std::vector<MadeUp> Rehearsal::faults() const {
    std::vector<MadeUp> result;
    std::set<std::string> named;
    const auto variants = harness::variants(harness_);
    for (std::size_t variant = 0; variant < variants.size(); ++variant) {
        const auto assembly = electrics::assemble(harness_, network_, variants[variant].present);
        for (diagnosis::Fault fault : diagnosis::all_faults(harness_, assembly)) {
            // Severities share a name: a middling joint, which is none of the figures that are weighed, and
            // the hard short.
            if (fault.mode == diagnosis::Mode::BadJoint) fault.ohm = diagnosis::usual_joint_ohm;
            std::string name = diagnosis::name(harness_, fault);
            if (named.insert(name).second) result.push_back({{fault}, variant, std::move(name)});
        }
    }
    return result;
}

MadeUp Rehearsal::fault_named(const std::string& name) const {
    const std::vector<MadeUp> all = faults();
    std::vector<std::string> names;
    for (const MadeUp& one : all) {
        if (one.name == name) return one;
        names.push_back(one.name);
    }
    Finding finding;
    finding.id = "unknown-fault";
    finding.location.file = "--fault";
    finding.message = fmt::format("there is no fault '{}' on this network", name);
    finding.expected =
        "PART:MODE, the mode one of " + join_words(diagnosis::mode_words()) +
        ", with -h or -l for the line and @CAVITY (or @RUN at a splice) where a part has several";
    finding.nearest = nearest_name(name, names);
    finding.next_step = "rehearse --list shows them all";
    throw InputError(finding);
}

MadeUp Rehearsal::faults_named(const std::vector<std::string>& names) const {
    if (names.size() > diagnosis::Faults::most) {
        Finding finding;
        finding.id = "too-many-faults";
        finding.location.file = "--fault";
        finding.message = fmt::format("{} faults at once", names.size());
        finding.expected = fmt::format("at most {}", diagnosis::Faults::most);
        throw InputError(finding);
    }
    MadeUp all;
    for (const std::string& name : names) {
        const MadeUp one = fault_named(name);
        if (all.faults.empty()) all.variant = one.variant;
        if (one.variant != all.variant) {
            Finding finding;
            finding.id = "faults-apart";
            finding.location.file = "--fault";
            finding.message = fmt::format("{} and {} cannot be on one vehicle", all.name, one.name);
            finding.next_step = "name faults of parts that are fitted together";
            throw InputError(finding);
        }
        all.name += (all.name.empty() ? "" : " and ") + one.name;
        all.faults.insert(all.faults.end(), one.faults.begin(), one.faults.end());
    }
    return all;
}

namespace {

// How many of the faulty parts have been seen to be so.
std::size_t laid_bare(const MadeUp& truth, const Harness& harness, const job::State& state) {
    std::size_t count = 0;
    for (const diagnosis::Fault& fault : truth.faults) {
        for (const job::SeenPart& seen : state.seen) {
            if (seen.seen.verdict != job::Verdict::Faulty || seen.seen.part != harness.parts[fault.part].id)
                continue;
            ++count;
            break;
        }
    }
    return count;
}

}  // namespace

Played Rehearsal::play(const MadeUp& truth, const PlayOptions& options) {
    Played played;
    Player player(harness_, network_, predictor_, truth, options);
    std::string story;
    UnixSeconds time = 0;
    const auto append = [&](const job::Body& body) {
        for (job::Event& each : job::with_implied(job::Event{body, std::nullopt}, played.records, harness_)) {
            story += job::to_json(each).dump();
            played.records.push_back({played.records.size() + 1, time, std::move(each)});
        }
    };
    for (std::size_t step = 0; step < options.most_steps; ++step) {
        const job::State state = job::replay(played.records);
        auto known = given_.find(story);
        if (known == given_.end()) known = given_.emplace(story, advisor_.advise(state)).first;
        const Recommendation& advice = known->second;
        const auto answers = player.answer(advice, state);
        if (answers.empty()) break;
        const bool moves = advice.action == Action::Read || advice.action == Action::Look;
        if (moves && played.probes + played.looks == 0)
            played.expected_minutes = advice.quote.expected_minutes;
        if (moves && !played.found) played.minutes += advice.minutes_now;
        if (!played.found && advice.action == Action::Read) ++played.probes;
        if (!played.found && advice.action == Action::Look) ++played.looks;
        if (options.to_the_end) {
            played.records.push_back({played.records.size() + 1, time,
                                      job::Event{job::Recommended{advice::to_text(advice)}, std::nullopt}});
        }
        if (moves) time += static_cast<UnixSeconds>(std::lround(advice.minutes_now * 60));
        for (const job::Body& body : answers) append(body);
        played.found =
            played.found || (advice.action == Action::Look &&
                             laid_bare(truth, harness_, job::replay(played.records)) == truth.faults.size());
        if (played.found && !options.to_the_end) break;
    }
    return played;
}

}  // namespace halfsplit::session
