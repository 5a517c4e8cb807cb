#include "halfsplit/base/clock.hpp"
#include "halfsplit/job/event_json.hpp"
#include "halfsplit/report/review.hpp"

#include <nlohmann/json.hpp>

#include "base/json_out.hpp"

#include <cmath>

namespace halfsplit::report {

using nlohmann::json;

namespace {

// A member that is left out where there is nothing to tell.
void add_record(json& out, const char* name, job::Sequence sequence) {
    if (sequence != 0) out[name] = sequence;
}
void add_text(json& out, const char* name, const std::string& text) {
    if (!text.empty()) out[name] = text;
}

json part_chance(const advice::PartChance& chance) {
    return {{"part", chance.part}, {"name", chance.name}, {"probability", rounded(chance.probability)}};
}

json named(const advice::Named& named) {
    return {{"id", named.id}, {"name", named.name}};
}

json suspect(const advice::SuspectView& suspect) {
    return {{"part", suspect.part},
            {"name", suspect.name},
            {"fault", suspect.fault},
            {"in_words", suspect.in_words},
            {"probability", rounded(suspect.probability)}};
}

json outlook(const advice::Outlook& outlook) {
    return {{"suspects", outlook.suspects},
            {"bits", rounded(outlook.bits)},
            {"leading", listed(outlook.leading, part_chance)},
            {"nothing_wrong", rounded(outlook.nothing_wrong)},
            {"two_faults", outlook.two_faults}};
}

json spent(const advice::Spent& spent) {
    return {{"work", word(spent.work)}, {"minutes", rounded(spent.minutes)}};
}

json circuit_state(const job::CircuitState& state) {
    return {{"battery_off", state.battery_off},
            {"bus_asleep", state.bus_asleep},
            {"apart", state.apart},
            {"repairs", state.repairs}};
}

bool is_probing(const advice::ReviewStep& step) {
    return std::holds_alternative<job::Reading>(step.event.body) ||
           std::holds_alternative<job::Seen>(step.event.body);
}

json step(const advice::ReviewStep& step) {
    json out{{"record", step.sequence},           {"time", format_time(step.time)},
             {"event", job::to_json(step.event)}, {"in_words", step.in_words},
             {"implied", step.implied},           {"counts", step.counts},
             {"minutes", rounded(step.minutes)},  {"state", circuit_state(step.state)}};
    if (!step.work.empty()) out["work"] = listed(step.work, spent);
    add_record(out, "undone_by", step.undone_by);
    add_record(out, "amended_by", step.amended_by);
    add_text(out, "amended_to", step.amended_to);
    if (step.told) out["told"] = {{"bits", rounded(step.told->bits)}, {"moved", rounded(step.told->moved)}};
    if (step.outlook) out["outlook"] = outlook(*step.outlook);
    if (!is_probing(step)) return out;
    out["pointless"] = step.pointless;
    add_record(out, "repeat_of", step.repeat_of);
    out["heed"] = word(step.heed);
    add_record(out, "advice", step.advice);
    add_text(out, "advised", step.advised);
    return out;
}

json detour(const advice::Detour& detour) {
    json out{{"record", detour.sequence},  {"advice", detour.advice},     {"advised", detour.advised},
             {"done", detour.done},        {"basis", word(detour.basis)}, {"counts", detour.counts},
             {"found_it", detour.found_it}};
    if (detour.basis != advice::Detour::Basis::Unknown) out["more_minutes"] = rounded(detour.more_minutes);
    return out;
}

json contradiction(const advice::Contradiction& contradiction) {
    const advice::Doubt& doubt = contradiction.doubt;
    json out{{"record", doubt.sequence},
             {"red", doubt.red},
             {"black", doubt.black},
             {"shown", doubt.shown},
             {"expected", doubt.expected},
             {"slips", doubt.slips},
             {"since", contradiction.since},
             {"chance_at_most", rounded(contradiction.chance_at_most)},
             {"unsettled", unsettled(contradiction)}};
    if (contradiction.at_end) out["at_end"] = rounded(*contradiction.at_end);
    add_record(out, "reread_by", contradiction.reread_by);
    add_record(out, "undone_by", contradiction.undone_by);
    add_record(out, "amended_by", contradiction.amended_by);
    return out;
}

json weak(const advice::WeakEvidence& weak) {
    return {{"record", weak.sequence},
            {"in_words", weak.in_words},
            {"weakness", word(weak.weakness)},
            {"moved", rounded(weak.moved)},
            {"chance_of_slip", rounded(weak.chance_of_slip)}};
}

json look(const advice::Look& look) {
    return {{"record", look.sequence}, {"what", look.what}};
}

json repair(const advice::ReviewedRepair& repair) {
    json out{{"record", repair.sequence},
             {"part", repair.repair.part},
             {"name", repair.part_name},
             {"in_words", repair.in_words},
             {"fault_chance", rounded(repair.fault_chance)},
             {"part_chance", rounded(repair.part_chance)},
             {"in_hindsight", rounded(repair.in_hindsight)},
             {"seen_faulty", listed(repair.seen_faulty, look)},
             {"proof", word(repair.proof)},
             {"cause", repair.cause}};
    add_text(out, "fault", repair.fault);
    add_text(out, "fault_in_words", repair.fault_in_words);
    add_record(out, "proof_record", repair.proof_sequence);
    if (repair.verified) out["verified"] = job::to_json(job::Event{*repair.verified, {}});
    return out;
}

json open_ends(const advice::OpenEnds& open) {
    json out{{"closed", open.closed},
             {"paused", open.paused},
             {"covers_off", listed(open.covers_off, named)},
             {"parts_apart", listed(open.parts_apart, named)},
             {"faulty_not_repaired", listed(open.faulty_not_repaired, named)},
             {"outlook", outlook(open.outlook)},
             {"suspects", listed(open.suspects, suspect)}};
    add_text(out, "advised", open.advised);
    return out;
}

json minutes(const advice::ReviewedMinutes& minutes) {
    json out{{"spent", rounded(minutes.spent)},
             {"away", rounded(minutes.away)},
             {"pauses", minutes.pauses},
             {"entered_by_hand", minutes.entered_by_hand},
             {"by_work", listed(minutes.by_work, spent)}};
    if (minutes.first_advice == 0) return out;
    out["advice"] = minutes.first_advice;
    out["expected"] = rounded(minutes.expected);
    out["worst"] = rounded(minutes.worst);
    out["before_advice"] = rounded(minutes.before_advice);
    if (minutes.to_find) out["to_find"] = rounded(*minutes.to_find);
    return out;
}

json log_state(const advice::LogState& log) {
    json out{{"records", log.records},
             {"bytes", log.bytes},
             {"torn_bytes", log.torn_bytes},
             {"line_end_missing", log.line_end_missing},
             {"harness_sha256", log.harness_sha256},
             {"harness_matches", log.harness_matches},
             {"program_version", log.program_version}};
    add_text(out, "checksum", log.checksum);
    return out;
}

}  // namespace

json review_json(const advice::Review& review) {
    json out{{"vehicle", review.vehicle},
             {"title", review.title},
             {"network", review.network},
             {"network_name", review.network_name},
             {"harness_file", review.harness_file},
             {"opened", format_time(review.opened)},
             {"last", format_time(review.last)},
             {"start", outlook(review.start)},
             {"steps", listed(review.steps, step)},
             {"detours", listed(review.detours, detour)},
             {"contradictions", listed(review.contradictions, contradiction)},
             {"weak", listed(review.weak, weak)},
             {"repairs", listed(review.repairs, repair)},
             {"fault", word(review.fault)},
             {"proof", word(review.proof)},
             {"whole", whole(review)},
             {"open", open_ends(review.open)},
             {"to_do", review.to_do},
             {"minutes", minutes(review.minutes)},
             {"log", log_state(review.log)},
             {"notices", review.notices},
             {"assumed", review.assumed}};
    if (review.has_intake) out["intake"] = job::to_json(job::Event{review.intake, {}});
    return out;
}

}  // namespace halfsplit::report
