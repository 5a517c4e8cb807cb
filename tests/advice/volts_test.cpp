// Volts from a job's state to the advice.
#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/advice/recommendation_json.hpp"
#include "halfsplit/advice/safety.hpp"
#include "halfsplit/session/rehearsal.hpp"

#include "advice/arrangement.hpp"
#include "advice/volt_outcomes.hpp"
#include "advice/whereabouts.hpp"
#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/sample_jobs.hpp"

#include <algorithm>

namespace halfsplit::advice {

namespace {

using electrics::Power;

job::Reading volts(const std::string& red, double volt) {
    return {.red = red, .black = "ground", .quantity = job::Quantity::Volt, .value = volt};
}

diagnosis::Evidence evidence_after(test::JobWriter& job) {
    return evidence(test::small_chain(), 0, job::replay(job.saved()));
}

// After a scan that nobody answers.
void begin_silent(test::JobWriter& job) {
    job.enter(1, job::Intake{.complaint = "all dead"});
    job.enter(1, job::Answers{.answering = {}, .silent = {"GW", "M1"}});
}

std::size_t live(const std::vector<Arrangement>& all) {
    return static_cast<std::size_t>(std::count_if(
        all.begin(), all.end(), [](const Arrangement& one) { return one.power != Power::Off && !one.scan; }));
}

}  // namespace

TEST_CASE("volts count as the job had the bus: awake until told otherwise, asleep, or not at all") {
    test::JobWriter job;
    job.enter(1, volts("DS:6", 2.5));
    job.enter(1, job::SafeState{.ignition_off = true, .bus_asleep = true});
    job.enter(1, volts("DS:6", 0.02));
    test::make_safe(job, 10);
    job.enter(1, volts("DS:6", 0));
    job.enter(1, job::Answers{.answering = {"GW"}, .silent = {"M1"}});
    job.enter(1, volts("DS:14", 2.4));
    const auto measured = evidence_after(job).measured;
    REQUIRE(measured.size() == 3);
    CHECK(measured[0].power() == Power::Awake);
    CHECK(measured[1].power() == Power::Asleep);
    // The scan had the bus awake again.
    CHECK(measured[2].power() == Power::Awake);
    CHECK(measured[2].volts->volt == 2.4);
}

TEST_CASE("volts say nothing of a bus whose levels are not known") {
    auto harness = test::small_chain();
    harness.networks.front().kind = "iso11898-3";
    test::JobWriter job;
    job.enter(1, volts("DS:6", 4.9));
    CHECK(evidence(harness, 0, job::replay(job.saved())).measured.empty());
}

TEST_CASE("predictions in volts are sorted into what a meter tells apart, and 0 V is always one of them") {
    std::vector<OutcomeClass> classes;
    const auto outcome = classify_volts({2.5, 12.55, electrics::floating, 2.51, 12.6, std::nullopt}, classes);
    REQUIRE(classes.size() == 4);
    CHECK(outcome == std::vector<int>{1, 2, 0, 1, 2, 3});
    CHECK(zero_outcome(classes) == 0);
    using Pulled = diagnosis::TipVolts::Pulled;
    CHECK(in_words(classes[0], Pulled::Up) == "about 0 V");
    CHECK(in_words(classes[1], Pulled::Up) == "about 2.5 V, with traffic up to 3.5 V");
    CHECK(in_words(classes[1], Pulled::Down) == "about 2.5 V, with traffic down to 1.5 V");
    CHECK(in_words(classes[2], Pulled::Nowhere) == "about 12.6 V");
    CHECK(in_words(classes[3], Pulled::Nowhere) == "the point is not there");
}

TEST_CASE("a live bus is arranged for where a short to ground or supply is worth a thought, and then alone") {
    const harness::Harness& harness = test::small_chain();
    diagnosis::Predictor predictor(harness, 0);
    const access::Costs costs(harness, 0);
    const auto arrange = [&](const diagnosis::Evidence& evidence, Power now) {
        const auto belief = infer(predictor, evidence);
        return arrangements({harness, 0, belief, costs, {harness.start, 0}, harness.networks[0].clip, now},
                            1);
    };
    CHECK(live(arrange({}, Power::Off)) == 2);
    // Everything answers but the module behind X1: a short would have silenced all.
    diagnosis::Evidence answered;
    answered.scanned.push_back(
        {1, {.answering = {find_part(harness, "GW")}, .silent = {find_part(harness, "M1")}}, {}});
    CHECK(live(arrange(answered, Power::Off)) == 0);
    // Nobody connects a battery to a bus in pieces.
    diagnosis::Evidence apart;
    apart.now.apart = {find_part(harness, "X2")};
    CHECK(live(arrange(apart, Power::Off)) == 0);
    // While it is live, ohms are an arrangement of their own.
    const auto awake = arrange({}, Power::Awake);
    CHECK(awake.front().power == Power::Awake);
    CHECK(awake[1].power == Power::Off);
    CHECK(awake[1].step == ArrangingStep::None);
}

TEST_CASE(
    "to make a dead bus live costs connecting, taking off and waiting at once, and the way back nothing") {
    const harness::Harness& harness = test::small_chain();
    const harness::Assumptions& rates = harness.assumptions;
    // Assumed: 2 minutes on, 12 off with waiting, 5 until it sleeps.
    CHECK(power_minutes(Power::Off, Power::Awake, rates) == 14);
    CHECK(power_minutes(Power::Off, Power::Asleep, rates) == 19);
    CHECK(power_minutes(Power::Awake, Power::Off, rates) == 0);
    CHECK(power_minutes(Power::Awake, Power::Asleep, rates) == 5);
    CHECK(power_minutes(Power::Asleep, Power::Awake, rates) == 0);
    diagnosis::Predictor predictor(harness, 0);
    const access::Costs costs(harness, 0);
    const auto belief = infer(predictor, {});
    const auto all = arrangements(
        {harness, 0, belief, costs, {harness.start, 0}, harness.networks[0].clip, Power::Off}, 1);
    Whereabouts whereabouts(costs.workshop(), all, rates);
    const auto live_one = std::find_if(all.begin(), all.end(), [](const Arrangement& one) {
        return one.power == Power::Awake && !one.scan;
    });
    const auto awake = static_cast<std::size_t>(live_one - all.begin());
    const std::size_t here = whereabouts.reading({harness.start, 0, 1}, 0).place;
    const std::size_t here_live = whereabouts.reading({harness.start, 0, 1}, awake).place;
    const access::Workshop workshop = whereabouts.workshop();
    CHECK(workshop.travel(here, here_live) == 14);
    CHECK(workshop.travel(here_live, here) == 0);
}

TEST_CASE("with the bus live after a silent scan, volts near at hand come before the battery goes off") {
    const auto harness = test::harness_from_text(test::socket_away_json());
    test::JobWriter job;
    begin_silent(job);
    Advisor advisor(harness, 0);
    const Recommendation advice = advisor.advise(job::replay(job.saved()));
    REQUIRE(advice.action == Action::Read);
    CHECK(advice.quantity == "volt");
    CHECK(advice.bus == "awake");
    CHECK(advice.black.name == "ground");
    CHECK(advice.prepare.empty());
    REQUIRE(advice.outcomes.size() == 3);
    CHECK(advice.outcomes[1].low_volt == Approx(2.5));
    CHECK(to_text(from_text(to_text(advice))) == to_text(advice));
    // What is not read in volts waits for the battery to be off.
    job.enter(1, volts(advice.red.name, 12.4));
    const Recommendation next = advisor.advise(job::replay(job.saved()));
    CHECK((next.action == Action::SafeState || next.quantity == "volt"));
    CHECK(next.action == Action::SafeState);
}

TEST_CASE("where one module alone is silent nobody is asked for volts") {
    const auto harness = test::harness_from_text(test::socket_away_json());
    test::JobWriter job;
    job.enter(1, job::Intake{.complaint = "seat dead"});
    job.enter(1, job::Answers{.answering = {"GW"}, .silent = {"M1"}});
    CHECK(Advisor(harness, 0).advise(job::replay(job.saved())).action == Action::SafeState);
}

TEST_CASE("ohms are not asked for while the battery is on, nor a repair begun") {
    test::JobWriter job;
    test::begin(job);
    job.enter(1, job::SafeState{});
    Advisor advisor(test::small_chain(), 0);
    CHECK(power_now(job::replay(job.saved())) == Power::Awake);
    CHECK(advisor.advise(job::replay(job.saved())).action == Action::SafeState);
    job.enter(1, job::Seen{"X1", job::Verdict::Faulty, "pin receded"});
    CHECK(advisor.advise(job::replay(job.saved())).action == Action::SafeState);
    test::make_safe(job, 10);
    CHECK(advisor.advise(job::replay(job.saved())).action == Action::Repair);
}

TEST_CASE("2.5 V is said to see neither an open nor a short from H to L") {
    test::JobWriter job;
    begin_silent(job);
    job.enter(1, volts("DS:6", 2.5));
    test::make_safe(job, 10);
    const Recommendation advice = Advisor(test::small_chain(), 0).advise(job::replay(job.saved()));
    CHECK(advice.cannot_tell.find("Volts see neither an open") != std::string::npos);
}

TEST_CASE("0 V on a bus that a later reading shows at rest is doubted as a bad contact") {
    test::JobWriter job;
    begin_silent(job);
    const auto doubted = job.enter(1, volts("DS:6", 0));
    job.enter(1, volts("X1.a:4", 2.5));  // the same line
    job.enter(1, volts("DS:14", 2.5));
    test::make_safe(job, 10);
    const Recommendation advice = Advisor(test::small_chain(), 0).advise(job::replay(job.saved()));
    REQUIRE(advice.doubts.size() == 1);
    const Doubt& doubt = advice.doubts.front();
    CHECK(doubt.sequence == doubted);
    CHECK(doubt.shown == "0 V");
    CHECK(doubt.expected == "2.5 V");
    REQUIRE_FALSE(doubt.slips.empty());
    CHECK(doubt.slips.front() == "a bad probe contact (shows 0 V or drifts)");
    CHECK(std::any_of(doubt.slips.begin(), doubt.slips.end(), [](const std::string& slip) {
        return slip.find("a bus that sleeps") != std::string::npos;
    }));
}

TEST_CASE("2.5 V on a bus that other readings show asleep is doubted, with 0 V expected") {
    test::JobWriter job;
    begin_silent(job);
    job.enter(1, job::SafeState{.ignition_off = true, .bus_asleep = true});
    const auto doubted = job.enter(1, volts("DS:6", 2.5));
    for (const char* point : {"X1.a:4", "DS:14", "DS:6"}) job.enter(1, volts(point, 0.01));
    test::make_safe(job, 10);
    const Recommendation advice = Advisor(test::small_chain(), 0).advise(job::replay(job.saved()));
    REQUIRE(advice.doubts.size() == 1);
    CHECK(advice.doubts.front().sequence == doubted);
    CHECK(advice.doubts.front().expected == "0 V");
}

TEST_CASE("in a rehearsal volts are advised and taken, and the short is found, with slips as well") {
    const auto harness = test::harness_from_text(test::socket_away_json());
    session::Rehearsal rehearsal(harness, 0);
    for (const char* name : {"M1:supply-h", "GW:ground-l", "W5:supply-l"}) {
        const auto truth = rehearsal.fault_named(name);
        for (const double slips : {0.0, 0.1}) {
            const auto played = rehearsal.play(truth, {.seed = 5, .slips = slips});
            INFO(name << ", slips " << slips);
            CHECK(played.found);
            const auto state = job::replay(played.records);
            CHECK(state.closed);
            const auto in_volts = std::find_if(
                state.readings.begin(), state.readings.end(),
                [](const job::TakenReading& taken) { return taken.reading.quantity == job::Quantity::Volt; });
            REQUIRE(in_volts != state.readings.end());
            CHECK_FALSE(in_volts->state.battery_off);
            if (slips == 0) {
                // 12.6 V of the supply, or ground, through 0.3 ohm and the terminators (arithmetic).
                const double level = std::string(name).find("supply") != std::string::npos ? 12.6 : 0;
                CHECK(in_volts->reading.value == Approx(level).margin(0.2));
            }
        }
    }
}

}  // namespace halfsplit::advice
