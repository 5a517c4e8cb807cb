#include "halfsplit/advice/retrospect.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/base/digest.hpp"
#include "halfsplit/job/words.hpp"

#include <fmt/format.h>

#include "advice/hindsight/corrections.hpp"
#include "advice/hindsight/doubted.hpp"
#include "advice/hindsight/heed.hpp"
#include "advice/hindsight/moments.hpp"
#include "advice/hindsight/outlook.hpp"
#include "advice/hindsight/repairs.hpp"
#include "advice/hindsight/repeats.hpp"
#include "advice/hindsight/spent.hpp"
#include "advice/hindsight/to_do.hpp"
#include "advice/hindsight/weak.hpp"
#include "advice/spot.hpp"
#include "advice/standing.hpp"

#include <algorithm>
#include <array>
#include <map>

namespace halfsplit::advice {

using harness::Harness;
using harness::Index;
using harness::none;
using job::Sequence;

std::string_view word(Heed heed) {
    constexpr std::array<std::string_view, 4> words{"no-advice", "followed", "detour", "other-step"};
    return words[static_cast<std::size_t>(heed)];
}

std::string_view word(Detour::Basis basis) {
    constexpr std::array<std::string_view, 3> words{"alternative", "labour", "unknown"};
    return words[static_cast<std::size_t>(basis)];
}

std::string_view word(Proof proof) {
    constexpr std::array<std::string_view, 4> words{"none", "partial", "not-cured", "cured"};
    return words[static_cast<std::size_t>(proof)];
}

namespace {

// Of a chance: less is no change.
constexpr double rounding = 1e-9;

bool is_probing(const job::Event& event) {
    return std::holds_alternative<job::Reading>(event.body) || std::holds_alternative<job::Seen>(event.body);
}

// Was the record taken up as evidence, so that it can have told something?
bool is_evidence(const job::Event& event, Sequence sequence, const diagnosis::Evidence& evidence) {
    const auto own = [sequence](const auto& entry) { return entry.sequence == sequence; };
    const bool proof = std::holds_alternative<job::Verified>(event.body);
    return proof || std::any_of(evidence.measured.begin(), evidence.measured.end(), own) ||
           std::any_of(evidence.located.begin(), evidence.located.end(), own) ||
           std::any_of(evidence.looked.begin(), evidence.looked.end(), own) ||
           std::any_of(evidence.scanned.begin(), evidence.scanned.end(), own);
}

class Retrospect {
  public:
    Retrospect(const std::vector<job::Record>& records, const Harness& harness, Index network)
        : records_(records),
          harness_(harness),
          network_(network),
          predictor_(harness, network),
          costs_(harness, network),
          resolved_(job::resolve(records)),
          corrections_(corrections(records, resolved_)),
          book_(harness, network, costs_),
          doubted_(costs_, predictor_) {}

    Review run() {
        Moments moments(predictor_);
        Moment before;
        for (position_ = 0; position_ < records_.size(); ++position_) {
            Moment after = moments.after(records_[position_], before, position_ + 1 == records_.size());
            if (after.left_out && not_weighed_from_ == 0) not_weighed_from_ = records_[position_].sequence;
            take(before, after);
            before = std::move(after);
        }
        finish(before);
        return std::move(review_);
    }

  private:
    void take(const Moment& before, const Moment& after) {
        const job::Record& record = records_[position_];
        spent_after_[record.sequence] = after.state.minutes_spent;
        if (before.state.paused || before.state.closed) count_absence();
        if (after.inferred)
            doubted_.take(record.sequence, after.believed->evidence, after.believed->belief, standing(after));
        if (const auto* logged = std::get_if<job::Recommended>(&record.event.body)) {
            if (!book_.add(record.sequence, *logged, after.state))
                review_.notices.push_back(
                    fmt::format("The advice in record {} cannot be read.", record.sequence));
            return;
        }
        if (const auto* repair = std::get_if<job::Repair>(&resolved_[position_].event->body))
            before_[record.sequence] = before_repair(harness_, before.believed->belief, repair->part);
        if (position_ > 0) {
            plans_[record.sequence] = work_plan(harness_, network_, costs_, record.event, before.state);
            add_step(before, after);
        } else {
            review_.start = outlook(harness_, after.believed->belief);
        }
    }

    // The clock's minutes from a pause, or the end of the job, to the record after it.
    void count_absence() {
        const UnixSeconds gap = records_[position_].time - records_[position_ - 1].time;
        review_.minutes.away += static_cast<double>(std::max<UnixSeconds>(0, gap)) / 60;
    }

    void add_step(const Moment& before, const Moment& after) {
        const job::Record& record = records_[position_];
        ReviewStep step{.sequence = record.sequence, .time = record.time, .event = record.event};
        step.in_words = job::in_words(record.event, harness_);
        step.implied = job::is_implied(record.event);
        if (step.implied) step.in_words = words_of_implied(record.event);
        step.counts = resolved_[position_].counts;
        step.undone_by = corrections_[position_].undone_by;
        step.amended_by = corrections_[position_].amended_by;
        if (resolved_[position_].event != &record.event)
            step.amended_to = job::in_words(*resolved_[position_].event, harness_);
        step.minutes = after.state.minutes_spent - spent_at_last_step_;
        spent_at_last_step_ = after.state.minutes_spent;
        step.state = job::circuit_now(before.state);
        if (after.inferred && !after.left_out) add_what_it_told(before, after, step);
        if (is_probing(step.event)) add_probing(before, step);
        review_.steps.push_back(std::move(step));
    }

    // As if it had been said: that it was implied is told by the step.
    std::string words_of_implied(job::Event event) const {
        if (auto* cover = std::get_if<job::CoverChange>(&event.body)) cover->implied = false;
        if (auto* plug = std::get_if<job::PlugChange>(&event.body)) plug->implied = false;
        return job::in_words(event, harness_);
    }

    void add_what_it_told(const Moment& before, const Moment& after, ReviewStep& step) const {
        if (is_evidence(step.event, step.sequence, after.believed->evidence)) {
            step.told = told(before.believed->whereabouts, after.believed->whereabouts);
            step.outlook = outlook(harness_, after.believed->belief);
        } else if (told(before.believed->whereabouts, after.believed->whereabouts).moved > rounding) {
            step.outlook = outlook(harness_, after.believed->belief);
        }
    }

    void add_probing(const Moment& before, ReviewStep& step) {
        const auto* look = std::get_if<job::Seen>(&step.event.body);
        const bool proof = look != nullptr && look->verdict == job::Verdict::Faulty;  // however sure one was
        step.pointless = !proof && step.told && std::abs(step.told->bits) < pointless_bits &&
                         step.told->moved < pointless_move;
        if (const auto* reading = std::get_if<job::Reading>(&step.event.body)) {
            step.repeat_of = repeat_of(*reading, step.state, before.state);
        } else {
            step.repeat_of = repeat_of(*look, before.state);
        }
        if (auto detour = book_.judge(step, before.state)) review_.detours.push_back(std::move(*detour));
    }

    access::Standing standing(const Moment& moment) const {
        return standing_of(harness_, network_, costs_, moment.state);
    }

    void finish(const Moment& end) {
        const RepairsInput input{harness_, network_, resolved_, end.state, end.believed->belief, before_};
        review_.repairs = reviewed_repairs(input);
        if (!review_.repairs.empty()) review_.proof = review_.repairs.back().proof;
        review_.contradictions =
            doubted_.at_the_end(end.believed->evidence, end.believed->belief, standing(end));
        for (Contradiction& contradiction : review_.contradictions) {
            const auto position = job::position_of(records_, contradiction.doubt.sequence);
            if (!position) continue;
            contradiction.undone_by = corrections_[*position].undone_by;
            contradiction.amended_by = corrections_[*position].amended_by;
        }
        review_.weak =
            weak_evidence(harness_, end.state, end.believed->evidence, end.believed->belief, review_.steps);
        mark_detours_that_found_it();
        describe_job(end.state);
        describe_open_ends(end);
        count_minutes(end.state);
        bill(records_, plans_, review_);
        review_.fault = fault_proof(review_);
        review_.to_do = to_do(review_);
    }

    void mark_detours_that_found_it() {
        for (Detour& detour : review_.detours) {
            for (const ReviewedRepair& repair : review_.repairs) {
                for (const Look& look : repair.seen_faulty) {
                    if (look.sequence == detour.sequence) detour.found_it = true;
                }
            }
        }
    }

    void describe_job(const job::State& state) {
        review_.vehicle = harness_.vehicle;
        review_.title = harness_.title;
        review_.network = harness_.networks[network_].id;
        review_.network_name = harness_.networks[network_].name;
        review_.harness_file = state.opened.harness_file;
        describe_log(state.opened);
        if (!records_.empty()) {
            review_.opened = records_.front().time;
            review_.last = records_.back().time;
        }
        review_.has_intake = state.intake.has_value();
        review_.intake = state.intake.value_or(job::Intake{});
        const auto problems = job::problems(records_);
        review_.notices.insert(review_.notices.begin(), problems.begin(), problems.end());
        if (not_weighed_from_ > 0)
            review_.notices.push_back(fmt::format(
                "The job is long: from record {} on what each record told was not worked out, only "
                "what is suspected at the end.",
                not_weighed_from_));
        review_.assumed = assumed(harness_, rates(harness_, state));
    }

    void describe_log(const job::Opened& opened) {
        review_.log.records = records_.size();
        review_.log.harness_sha256 = opened.harness_sha256;
        review_.log.harness_matches = sha256(opened.harness_text) == opened.harness_sha256;
        review_.log.program_version = opened.program_version;
    }

    void describe_open_ends(const Moment& end) {
        constexpr std::size_t most_suspects = 5;
        OpenEnds& open = review_.open;
        open.closed = end.state.closed;
        open.paused = end.state.paused;
        for (const std::string& id : end.state.covers_off) {
            const Index cover = find_cover(harness_, id);
            open.covers_off.push_back({id, cover == none ? "" : harness_.covers[cover].name});
        }
        for (const std::string& id : end.state.apart) open.parts_apart.push_back(named_part(id));
        add_faulty_not_repaired(end.state);
        open.advised = book_.pending(end.state);
        open.outlook = outlook(harness_, end.believed->belief);
        if (review_.proof != Proof::Cured)
            open.suspects = suspect_views(harness_, end.believed->belief, most_suspects);
    }

    void add_faulty_not_repaired(const job::State& state) {
        for (const std::string& part : faulty_not_repaired(state))
            review_.open.faulty_not_repaired.push_back(named_part(part));
    }

    Named named_part(const std::string& id) const {
        const Index part = find_part(harness_, id);
        return {id, part == none ? "" : harness_.parts[part].name};
    }

    void count_minutes(const job::State& state) {
        ReviewedMinutes& minutes = review_.minutes;
        minutes.spent = state.minutes_spent;
        for (const job::Resolved& resolved : resolved_) {
            if (!resolved.counts) continue;
            if (std::holds_alternative<job::Paused>(resolved.event->body)) ++minutes.pauses;
            if (resolved.minutes) ++minutes.entered_by_hand;
        }
        const auto first = book_.first(state);
        if (!first) return;
        minutes.first_advice = first->sequence;
        minutes.expected = first->expected_minutes;
        minutes.worst = first->worst_minutes;
        minutes.before_advice = first->minutes_spent;
        const Sequence found = when_found();
        if (found > first->sequence) minutes.to_find = spent_after_.at(found) - first->minutes_spent;
    }

    // The record that found the last cause; 0: none did.
    Sequence when_found() const {
        const auto cause = std::find_if(review_.repairs.rbegin(), review_.repairs.rend(),
                                        [](const ReviewedRepair& repair) { return repair.cause; });
        if (cause == review_.repairs.rend()) return 0;
        return cause->seen_faulty.empty() ? cause->sequence : cause->seen_faulty.front().sequence;
    }

    const std::vector<job::Record>& records_;
    const Harness& harness_;
    Index network_;
    diagnosis::Predictor predictor_;
    access::Costs costs_;
    std::vector<job::Resolved> resolved_;
    std::vector<Correction> corrections_;
    AdviceBook book_;
    Doubted doubted_;
    std::map<Sequence, double> spent_after_;
    std::map<Sequence, BeforeRepair> before_;
    std::map<Sequence, WorkPlan> plans_;
    std::size_t position_ = 0;
    Sequence not_weighed_from_ = 0;  // 0: all were
    double spent_at_last_step_ = 0;
    Review review_;
};

}  // namespace

Review retrospect(const std::vector<job::Record>& records, const Harness& harness, Index network) {
    return Retrospect(records, harness, network).run();
}

Review retrospect(const job::Contents& contents, const Subject& subject) {
    Review review = retrospect(contents.records, subject.harness, subject.network);
    review.log.bytes = contents.length;
    review.log.torn_bytes = contents.torn ? contents.torn->bytes : 0;
    review.log.line_end_missing = contents.line_end_missing;
    review.log.checksum = contents.last_checksum;
    return review;
}

}  // namespace halfsplit::advice
