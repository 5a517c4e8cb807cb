#include "advice/hindsight/spent.hpp"

#include "halfsplit/advice/evidence.hpp"

#include "advice/hindsight/site.hpp"
#include "advice/standing.hpp"

#include <array>

namespace halfsplit::advice {

using harness::Harness;
using harness::Index;

std::string_view word(Work work) {
    constexpr std::array<std::string_view, 8> words{"preparing", "travel", "opening", "probing",
                                                    "repair",    "proof",  "refit",   "other"};
    return words[static_cast<std::size_t>(work)];
}

namespace {

constexpr std::size_t kinds_of_work = static_cast<std::size_t>(Work::Other) + 1;

Work work_of(const job::Event& event) {
    const job::Body& body = event.body;
    if (std::holds_alternative<job::Intake>(body) || std::holds_alternative<job::Answers>(body) ||
        std::holds_alternative<job::SafeState>(body))
        return Work::Preparing;
    if (std::holds_alternative<job::Reading>(body) || std::holds_alternative<job::Distance>(body) ||
        std::holds_alternative<job::Seen>(body) || std::holds_alternative<job::ClipMoved>(body))
        return Work::Probing;
    if (const auto* cover = std::get_if<job::CoverChange>(&body))
        return cover->off ? Work::Opening : Work::Refit;
    if (const auto* plug = std::get_if<job::PlugChange>(&body))
        return plug->plugged ? Work::Refit : Work::Probing;
    if (std::holds_alternative<job::Repair>(body)) return Work::Repair;
    if (std::holds_alternative<job::Verified>(body)) return Work::Proof;
    return Work::Other;
}

}  // namespace

WorkPlan work_plan(const Harness& harness, Index network, const access::Costs& costs, const job::Event& event,
                   const job::State& before) {
    WorkPlan plan{.own = work_of(event)};
    const auto site = site_of(harness, costs, event, clip_point(harness, network, before));
    if (!site) return plan;
    const access::Standing standing = standing_of(harness, network, costs, before);
    plan.travel = costs.workshop().travel(standing.place, site->place);
    for (const Index cover : costs.to_take_off(*site, standing.off))
        plan.opening += harness.covers[cover].off_minutes;
    return plan;
}

std::vector<Spent> split(const WorkPlan& plan, double minutes) {
    if (minutes <= 0) return {};
    const double on_the_way = plan.travel + plan.opening;
    const double share = on_the_way > minutes ? minutes / on_the_way : 1;
    std::vector<Spent> spent;
    if (plan.travel > 0) spent.push_back({Work::Travel, plan.travel * share});
    if (plan.opening > 0) spent.push_back({Work::Opening, plan.opening * share});
    if (minutes > on_the_way) spent.push_back({plan.own, minutes - on_the_way});
    return spent;
}

void bill(const std::vector<job::Record>& records, const std::map<job::Sequence, WorkPlan>& plans,
          Review& review) {
    const std::vector<double> minutes = job::minutes_by_record(records);
    std::array<double, kinds_of_work> sums{};
    double since_step = 0;
    auto step = review.steps.begin();
    for (std::size_t position = 0; position < records.size(); ++position) {
        since_step += minutes[position];
        if (step == review.steps.end() || step->sequence != records[position].sequence) continue;
        if (step->counts) {
            step->work = split(plans.at(step->sequence), since_step);
            for (const Spent& spent : step->work) sums[static_cast<std::size_t>(spent.work)] += spent.minutes;
            since_step = 0;
        }
        ++step;
    }
    sums[static_cast<std::size_t>(Work::Other)] += since_step;
    for (std::size_t kind = 0; kind < kinds_of_work; ++kind) {
        if (sums[kind] > 0) review.minutes.by_work.push_back({static_cast<Work>(kind), sums[kind]});
    }
}

}  // namespace halfsplit::advice
