// A card is followed as somebody would who has nothing but the paper and a meter: for every single fault,
// with the readings that are predicted for it.
#include "halfsplit/advice/card.hpp"

#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/diagnosis/silence.hpp"
#include "halfsplit/diagnosis/volts.hpp"
#include "halfsplit/report/card_report.hpp"

#include "advice/candidates.hpp"
#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/sample_jobs.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace halfsplit::advice {

namespace {

using harness::Index;

enum class End { RightPart, WrongPart, Screen };

class Follower {
  public:
    Follower(const Card& card, diagnosis::Predictor& predictor, diagnosis::Situation begin)
        : card_(card),
          predictor_(predictor),
          harness_(predictor.harness()),
          costs_(harness_, predictor.network()),
          begin_(std::move(begin)) {}

    End follow(const diagnosis::Explanation& explanation) {
        situation_ = begin_;
        power_ = "";
        off_.clear();
        for (const CardItem& cover : card_.covers_off) off_.insert(cover.id);
        if (card_.steps.empty()) return End::Screen;
        for (std::size_t number = 1;;) {
            const CardStep& step = card_.steps[number - 1];
            REQUIRE(step.number == number);
            arrange(step);
            const CardOutcome* outcome = shown(step, explanation);
            if (outcome == nullptr) return End::Screen;
            if (outcome->goes_to == 0) {
                const std::string& part = harness_.parts[explanation.faults.front().part].id;
                const bool named = std::count(outcome->parts.begin(), outcome->parts.end(), part) > 0;
                return named ? End::RightPart : End::WrongPart;
            }
            REQUIRE(outcome->goes_to > number);
            number = outcome->goes_to;
        }
    }

  private:
    // Minutes, refitting included.
    double take_off(const std::vector<CoverStep>& covers) {
        double minutes = 0;
        for (const CoverStep& cover : covers) {
            INFO(cover.cover);
            CHECK(off_.insert(cover.cover).second);
            minutes += cover.off_minutes + cover.on_minutes;
        }
        return minutes;
    }

    void arrange(const CardStep& step) {
        double minutes = step.travel_minutes;
        for (const Preparation& first : step.prepare) {
            minutes += first.travel_minutes + take_off(first.covers);
            const Index part = find_part(harness_, first.spot.part);
            auto& apart = situation_.apart;
            const auto own = std::find(apart.begin(), apart.end(), part);
            if (first.step == "unplug") {
                CHECK(power_.empty());
                REQUIRE(own == apart.end());
                apart.insert(std::upper_bound(apart.begin(), apart.end(), part), part);
            } else if (first.step == "plug") {
                CHECK(power_.empty());
                REQUIRE(own != apart.end());
                apart.erase(own);
            } else if (first.step != "clip") {
                power_ = first.step == "power-off" ? "" : first.step;
            }
        }
        minutes += take_off(step.covers);
        CHECK(step.minutes >= minutes - 1e-9);
        const bool live = step.action == Action::Scan || step.quantity == "volt";
        CHECK(power_ == (live ? step.bus == "awake" ? "wake" : "sleep" : ""));
        check_within_reach(step);
    }

    // With the covers that the card has told so far.
    void check_within_reach(const CardStep& step) const {
        std::vector<Index> off;
        for (const std::string& cover : off_) off.push_back(find_cover(harness_, cover));
        const access::CoverSet set = costs_.set_of(off);
        if (step.action == Action::Look) {
            CHECK(costs_.to_take_off(costs_.look(find_part(harness_, step.target.part)), set).empty());
        } else if (step.action == Action::Read) {
            const auto red = contact_named(harness_, step.red.name);
            REQUIRE(red);
            CHECK(costs_.to_take_off(costs_.probe(red->terminal), set).empty());
        }
    }

    // None: nothing that is on the card.
    const CardOutcome* shown(const CardStep& step, const diagnosis::Explanation& explanation) {
        std::vector<const CardOutcome*> fitting;
        for (const CardOutcome& outcome : step.outcomes)
            if (fits(step, outcome, explanation)) fitting.push_back(&outcome);
        REQUIRE(fitting.size() <= 1);
        return fitting.empty() ? nullptr : fitting.front();
    }

    bool fits(const CardStep& step, const CardOutcome& outcome, const diagnosis::Explanation& explanation) {
        if (step.action == Action::Look) {
            const Index part = find_part(harness_, step.target.part);
            return (explanation.faults.front().part == part) == (outcome.goes_to == 0);
        }
        if (step.action == Action::Scan) {
            const auto answering = likely_to_answer(explanation, situation_, predictor_);
            return ids_of(harness_, answering) == outcome.answering;
        }
        const diagnosis::Tips tips = test::tips(harness_, step.red.name, step.black.name);
        if (step.quantity == "volt") {
            const auto volts =
                diagnosis::predict_volts(predictor_, explanation, situation_, {tips}, step.bus == "awake");
            const auto rest = at_rest(volts.front());
            if (!rest) return outcome.low_volt == outcome.high_volt;
            const double volt = std::isnan(*rest) ? 0 : *rest;
            return volt >= outcome.low_volt && volt <= outcome.high_volt;
        }
        const double ohm = predictor_.ohms(explanation, situation_, {tips}).front();
        if (std::isnan(ohm)) return outcome.high_ohm == 0;
        const double read = diagnosis::as_shown(ohm);
        return outcome.high_ohm > 0 && read >= outcome.low_ohm && read <= outcome.high_ohm;
    }

    const Card& card_;
    diagnosis::Predictor& predictor_;
    const harness::Harness& harness_;
    access::Costs costs_;
    diagnosis::Situation begin_, situation_;
    std::string power_;
    std::set<std::string> off_;
};

void check_leads_somewhere(const Card& card) {
    double ends = 0;
    std::vector<double> coming(card.steps.size() + 1, 0);
    if (!card.steps.empty()) coming[1] = 1;
    for (const CardStep& step : card.steps) {
        INFO("step " << step.number);
        CHECK(step.chance == Approx(coming[step.number]).margin(1e-9));
        CHECK(step.chance >= least_card_chance);
        CHECK(step.minutes >= 0);
        double sum = step.folded;
        CHECK_FALSE(step.outcomes.empty());
        for (const CardOutcome& outcome : step.outcomes) {
            sum += outcome.chance;
            CHECK((outcome.goes_to == 0) != outcome.parts.empty());
            CHECK(outcome.goes_to <= card.steps.size());
            if (outcome.goes_to == 0)
                ends += outcome.chance;
            else
                coming[outcome.goes_to] += outcome.chance;
        }
        CHECK(sum == Approx(step.chance).margin(1e-9));
    }
    CHECK(card.share == Approx(ends).margin(1e-9));
}

// The share of hunts that end on the card, each way the vehicle could be wrong as likely as it is believed.
double followed(const Card& card, diagnosis::Predictor& predictor, const diagnosis::Belief& belief) {
    Follower follower(card, predictor, belief.now);
    double ended = 0, all = 0;
    for (const Representative& own : representatives(predictor.harness(), belief, 1e-7)) {
        if (own.explanation->faults.empty()) continue;
        const End end = follower.follow(*own.explanation);
        CHECK(end != End::WrongPart);
        all += own.probability;
        if (end == End::RightPart) ended += own.probability;
    }
    return ended / all;
}

Card fitted(const Card& card) {
    return report::fitted(card, "x", report::Paper::A4);
}

}  // namespace

TEST_CASE(
    "whoever follows the card of a fresh hunt ends at the faulty part or comes back, as often as it says",
    "[long]") {
    for (const char* path :
         {"tests/data/small_chain.json", "data/demo/minibus.json", "data/demo/forestry.json"}) {
        const harness::Harness harness = test::harness_from(path);
        for (Index network = 0; network < harness.networks.size(); ++network) {
            CAPTURE(path, network);
            diagnosis::Predictor predictor(harness, network);
            const diagnosis::Belief prior = infer(predictor, {});
            const Card whole = card(harness, network);
            check_leads_somewhere(whole);
            CHECK(followed(whole, predictor, prior) == Approx(whole.share).margin(1e-3));
            const Card sheet = fitted(whole);
            check_leads_somewhere(sheet);
            CHECK(sheet.share <= whole.share);
            CHECK(followed(sheet, predictor, prior) == Approx(sheet.share).margin(1e-3));
        }
    }
}

TEST_CASE("with another aim the card keeps its word as well") {
    const harness::Harness& harness = test::small_chain();
    diagnosis::Predictor predictor(harness, 0);
    const diagnosis::Belief prior = infer(predictor, {});
    const Card expected = card(harness, 0);
    for (const Aim& aim : {Aim{.least_worst = true}, Aim{.worst_at_most = 85}, Aim{.isolate = true}}) {
        const Card own = card(harness, 0, aim);
        check_leads_somewhere(own);
        CHECK(followed(own, predictor, prior) == Approx(own.share).margin(1e-3));
        CHECK(own.quote.worst_minutes <= expected.quote.worst_minutes);
    }
    const Card isolated = card(harness, 0, {.isolate = true});
    const auto looks = [](const CardStep& step) { return step.action == Action::Look; };
    CHECK(std::none_of(isolated.steps.begin(), isolated.steps.end(), looks));
    CHECK(std::any_of(expected.steps.begin(), expected.steps.end(), looks));
}

TEST_CASE("the card of a job begins where the job stands, and knows what was read") {
    test::JobWriter job;
    test::begin(job);
    const harness::Harness& harness = test::small_chain();
    Advisor advisor(harness, 0);
    const job::State state = job::replay(job.saved());
    const Card begun = advisor.card(state);
    CHECK(begun.scanned);
    check_leads_somewhere(begun);
    diagnosis::Predictor predictor(harness, 0);
    const diagnosis::Belief belief = advisor.believe(state);
    CHECK(followed(begun, predictor, belief) == Approx(begun.share).margin(1e-3));
    job.read(5, "X1.b:4", "DS:6", 0.4);
    const job::State later = job::replay(job.saved());
    const Card after = advisor.card(later);
    check_leads_somewhere(after);
    CHECK(after.quote.expected_minutes != Approx(begun.quote.expected_minutes));
    CHECK(followed(after, predictor, advisor.believe(later)) == Approx(after.share).margin(1e-3));
    // What is off already is not told to be taken off, and is to be refitted.
    REQUIRE(!after.covers_off.empty());
    CHECK(to_refit(after).front().id == after.covers_off.front().id);
    for (const CardStep& step : after.steps)
        for (const CoverStep& cover : step.covers) CHECK(cover.cover != after.covers_off.front().id);
}

TEST_CASE("what is found, mended or cured has a card without steps") {
    const auto stage_after = [](std::size_t records) {
        auto job = test::job_with_a_repair_that_did_not_cure();
        job.resize(std::min(records, job.size()));
        Advisor advisor(test::small_chain(), 0);
        const Card card = advisor.card(job::replay(job));
        check_leads_somewhere(card);
        CHECK((card.stage == Left::Stage::Hunting) == !card.steps.empty());
        return card.stage;
    };
    std::set<Left::Stage> seen;
    const std::size_t all = test::job_with_a_repair_that_did_not_cure().size();
    for (std::size_t records = 3; records <= all; ++records) seen.insert(stage_after(records));
    CHECK(seen.count(Left::Stage::Found) == 1);
    CHECK(seen.count(Left::Stage::Mended) == 1);
    CHECK(seen.count(Left::Stage::Cured) == 1);
    CHECK(seen.count(Left::Stage::Hunting) == 1);
}

TEST_CASE("folding keeps a card whole: numbers, ways and chances") {
    const Card whole = card(test::small_chain(), 0);
    const std::size_t all = whole.steps.size();
    REQUIRE(all > 10);
    CHECK(folded(whole, std::vector<char>(all, 1)).steps.size() == all);
    CHECK(folded(whole, std::vector<char>(all, 0)).steps.empty());
    for (std::size_t left_out = 0; left_out < all; ++left_out) {
        CAPTURE(left_out);
        std::vector<char> kept(all, 1);
        kept[left_out] = 0;
        const Card less = folded(whole, kept);
        check_leads_somewhere(less);
        CHECK(less.steps.size() < all);
        CHECK(less.share <= whole.share + 1e-12);
    }
}

TEST_CASE("a bus without a probe point has a card without steps") {
    harness::Harness harness = test::small_chain();
    harness.networks.front().clip = harness::none;
    CHECK(card(harness, 0).steps.empty());
    CHECK(report::card_text(card(harness, 0), "x", 80).find("no point to clip to") != std::string::npos);
}

}  // namespace halfsplit::advice
