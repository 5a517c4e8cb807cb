#include "halfsplit/job/event_json.hpp"

#include "json_members.hpp"

#include <array>
#include <cmath>
#include <stdexcept>

namespace halfsplit::job {

namespace {

using nlohmann::json;

constexpr std::string_view format_name = "halfsplit-job";

constexpr std::array<std::string_view, 2> quantity_words{"ohm", "volt"};
constexpr std::array<std::string_view, 5> outcome_words{"value", "closed", "open", "not-sure",
                                                        "could-not-reach"};
constexpr std::array<std::string_view, 3> method_words{"capacitance", "ohms", "loop"};
constexpr std::array<std::string_view, 3> lines_words{"h", "l", "hl"};
constexpr std::array<std::string_view, 4> verdict_words{"faulty", "sound", "not-sure", "could-not-reach"};
constexpr std::array<std::string_view, 4> difference_words{"fitted", "connector", "place", "minutes"};
constexpr std::array<std::string_view, 3> fitted_words{"yes", "no", "unknown"};
constexpr std::array<std::string_view, 5> action_words{"reseated", "cleaned", "repaired", "replaced",
                                                       "bridge-plug-fitted"};

template <typename Enumeration, std::size_t Size>
std::string word(Enumeration value, const std::array<std::string_view, Size>& words) {
    return std::string(words.at(static_cast<std::size_t>(value)));
}

json figure(double value) {
    if (std::isinf(value) && value > 0) return "OL";
    if (!std::isfinite(value)) throw std::invalid_argument("a figure that is neither a number nor OL");
    return value;
}

json finite(double value) {
    if (!std::isfinite(value)) throw std::invalid_argument("a figure that is not a number");
    return value;
}

json minutes(double value) {
    if (!std::isfinite(value) || value < 0)
        throw std::invalid_argument("minutes that are not a number from 0");
    return value;
}

json members(const Opened& opened) {
    return {{"format", format_name},
            {"version", format_version},
            {"harness_file", opened.harness_file},
            {"harness_text", opened.harness_text},
            {"harness_sha256", opened.harness_sha256},
            {"network", opened.network},
            {"program_version", opened.program_version}};
}

json members(const Intake& intake) {
    return {{"complaint", intake.complaint},
            {"recent_work", intake.recent_work},
            {"conditions", intake.conditions},
            {"replaced", intake.replaced}};
}

json members(const SafeState& safe) {
    return {{"ignition_off", safe.ignition_off},
            {"bus_asleep", safe.bus_asleep},
            {"battery_off", safe.battery_off},
            {"waited_minutes", minutes(safe.waited_minutes)}};
}

json members(const Answers& answers) {
    return {{"answering", answers.answering}, {"silent", answers.silent}};
}

json members(const Reading& reading) {
    json result{{"red", reading.red},
                {"black", reading.black},
                {"quantity", word(reading.quantity, quantity_words)},
                {"outcome", word(reading.outcome, outcome_words)},
                {"moved", reading.moved}};
    if (reading.wet) result["wet"] = true;
    if (reading.outcome == Outcome::Value) result["value"] = figure(reading.value);
    return result;
}

json members(const Distance& distance) {
    return {{"method", word(distance.method, method_words)},
            {"lines", word(distance.lines, lines_words)},
            {"from", distance.from},
            {"to", distance.to},
            {"first", finite(distance.first)},
            {"second", finite(distance.second)},
            {"metres", finite(distance.metres)},
            {"deviation", finite(distance.deviation)},
            {"run", distance.run},
            {"metres_into_run", finite(distance.metres_into_run)},
            {"run_end", distance.run_end},
            {"also", distance.also}};
}

json members(const Seen& seen) {
    return {{"part", seen.part}, {"verdict", word(seen.verdict, verdict_words)}, {"what", seen.what}};
}

json members(const CoverChange& change) {
    return {{"cover", change.cover}, {"off", change.off}, {"implied", change.implied}};
}

json members(const PlugChange& change) {
    return {{"part", change.part}, {"plugged", change.plugged}, {"implied", change.implied}};
}

json members(const ClipMoved& clip) {
    return {{"point", clip.point}};
}

json members(const Repair& repair) {
    return {{"part", repair.part}, {"action", word(repair.action, action_words)}, {"what", repair.what}};
}

json members(const Verified& verified) {
    json result = json::object();
    if (verified.h_to_l_ohm) result["h_to_l_ohm"] = figure(*verified.h_to_l_ohm);
    if (verified.all_answer) result["all_answer"] = *verified.all_answer;
    if (verified.codes_clear) result["codes_clear"] = *verified.codes_clear;
    if (verified.complaint_gone) result["complaint_gone"] = *verified.complaint_gone;
    return result;
}

json members(const Remark& remark) {
    return {{"text", remark.text}};
}
json members(const Paused&) {
    return json::object();
}
json members(const Resumed&) {
    return json::object();
}
json members(const Closed&) {
    return json::object();
}
json members(const MeterUsed& used) {
    const harness::MeterProfile& meter = used.meter;
    return {{"name", meter.name},
            {"percent", figure(meter.percent)},
            {"digits", figure(meter.digits)},
            {"counts", figure(meter.counts)},
            {"lead_ohm", figure(meter.lead_ohm)},
            {"limit_ohm", figure(meter.limit_ohm)},
            {"buzzer_low_ohm", figure(meter.buzzer_low_ohm)},
            {"buzzer_high_ohm", figure(meter.buzzer_high_ohm)}};
}

json members(const VehicleDiffers& differs) {
    using Kind = harness::Difference::Kind;
    const harness::Difference& it = differs.difference;
    json result{{"what", word(it.kind, difference_words)}, {"id", it.id}};
    if (it.kind == Kind::Fitted) result["fitted"] = word(it.fitted, fitted_words);
    if (it.kind == Kind::Connector) {
        result["run"] = it.run;
        result["h"] = it.cavity[0];
        if (!it.cavity[1].empty()) result["l"] = it.cavity[1];
        if (it.after_m) result["after_m"] = minutes(*it.after_m);
    }
    if (!it.place.empty()) {
        result["place"] = it.place;
        result["covers"] = it.covers;
    }
    if (it.kind == Kind::Minutes) {
        result["off_minutes"] = minutes(it.off_minutes);
        result["on_minutes"] = minutes(it.on_minutes);
    }
    return result;
}

json members(const PinsTried& pins) {
    return {{"tried", pins.tried}, {"slips", pins.slips}};
}

// As a string, so that the advice comes back byte for byte.
json members(const Recommended& recommended) {
    return {{"advice", recommended.json}};
}

json members(const Amend& amend) {
    if (!amend.event) throw std::invalid_argument("an amend without its event");
    return {{"target", amend.target}, {"event", to_json(*amend.event)}};
}

json members(const Undo& undo) {
    return {{"target", undo.target}};
}

void require_utf8(const json& value) {
    try {
        (void)value.dump();
    } catch (const json::type_error&) {
        throw std::invalid_argument("text that is not UTF-8 cannot be written into a job");
    }
}

// One overload for each kind of body; `into` tells which.
void read(Members& from, Opened& into) {
    if (from.text("format") != format_name) from.refuse("format", "does not say \"halfsplit-job\"");
    if (from.whole("version") != format_version)
        from.refuse("version",
                    "is not 1: the job was written by another version of the program, which can read it");
    into.harness_file = from.text("harness_file");
    into.harness_text = from.text("harness_text");
    into.harness_sha256 = from.text("harness_sha256");
    into.network = from.text("network");
    into.program_version = from.text("program_version");
}

void read(Members& from, Intake& into) {
    into.complaint = from.text("complaint");
    into.recent_work = from.text("recent_work");
    into.conditions = from.texts("conditions");
    into.replaced = from.texts("replaced");
}

void read(Members& from, SafeState& into) {
    into.ignition_off = from.truth("ignition_off");
    into.bus_asleep = from.truth("bus_asleep");
    into.battery_off = from.truth("battery_off");
    into.waited_minutes = from.finite("waited_minutes");
    if (into.waited_minutes < 0) from.refuse("waited_minutes", "is below zero");
}

void read(Members& from, Answers& into) {
    into.answering = from.texts("answering");
    into.silent = from.texts("silent");
}

void read(Members& from, Reading& into) {
    into.red = from.text("red");
    into.black = from.text("black");
    into.quantity = static_cast<Quantity>(from.one_of("quantity", quantity_words));
    into.outcome = static_cast<Outcome>(from.one_of("outcome", outcome_words));
    if (into.outcome == Outcome::Value) into.value = from.figure("value");
    into.moved = from.truth("moved");
    if (from.has("wet")) into.wet = from.truth("wet");
}

void read(Members& from, Distance& into) {
    into.method = static_cast<electrics::DistanceMethod>(from.one_of("method", method_words));
    into.lines = static_cast<electrics::DistanceLines>(from.one_of("lines", lines_words));
    into.from = from.text("from");
    into.to = from.text("to");
    into.first = from.finite("first");
    into.second = from.finite("second");
    into.metres = from.finite("metres");
    into.deviation = from.finite("deviation");
    into.run = from.text("run");
    into.metres_into_run = from.finite("metres_into_run");
    into.run_end = from.text("run_end");
    into.also = from.texts("also");
    if (into.deviation <= 0) from.refuse("deviation", "is not above zero");
}

void read(Members& from, Seen& into) {
    into.part = from.text("part");
    into.verdict = static_cast<Verdict>(from.one_of("verdict", verdict_words));
    into.what = from.text("what");
}

void read(Members& from, CoverChange& into) {
    into.cover = from.text("cover");
    into.off = from.truth("off");
    into.implied = from.truth("implied");
}

void read(Members& from, PlugChange& into) {
    into.part = from.text("part");
    into.plugged = from.truth("plugged");
    into.implied = from.truth("implied");
}

void read(Members& from, ClipMoved& into) {
    into.point = from.text("point");
}

void read(Members& from, Repair& into) {
    into.part = from.text("part");
    into.action = static_cast<RepairAction>(from.one_of("action", action_words));
    into.what = from.text("what");
}

void read(Members& from, Verified& into) {
    if (from.has("h_to_l_ohm")) into.h_to_l_ohm = from.figure("h_to_l_ohm");
    if (from.has("all_answer")) into.all_answer = from.truth("all_answer");
    if (from.has("codes_clear")) into.codes_clear = from.truth("codes_clear");
    if (from.has("complaint_gone")) into.complaint_gone = from.truth("complaint_gone");
}

void read(Members& from, Remark& into) {
    into.text = from.text("text");
}
void read(Members&, Paused&) {}
void read(Members&, Resumed&) {}
void read(Members&, Closed&) {}
// A meter that could not be would count as evidence of anything.
void read(Members& from, MeterUsed& into) {
    harness::MeterProfile& meter = into.meter;
    meter.name = from.text("name");
    const auto positive = [&](const char* name, double& figure) {
        figure = from.finite(name);
        if (!(figure > 0)) from.refuse(name, "is not above zero");
    };
    positive("counts", meter.counts);
    positive("limit_ohm", meter.limit_ohm);
    positive("buzzer_low_ohm", meter.buzzer_low_ohm);
    positive("buzzer_high_ohm", meter.buzzer_high_ohm);
    const auto not_below_zero = [&](const char* name, double& figure) {
        figure = from.finite(name);
        if (figure < 0) from.refuse(name, "is below zero");
    };
    not_below_zero("percent", meter.percent);
    not_below_zero("digits", meter.digits);
    not_below_zero("lead_ohm", meter.lead_ohm);
}

void read(Members& from, VehicleDiffers& into) {
    using Kind = harness::Difference::Kind;
    harness::Difference& it = into.difference;
    it.kind = static_cast<Kind>(from.one_of("what", difference_words));
    it.id = from.text("id");
    if (it.kind == Kind::Fitted)
        it.fitted = static_cast<harness::Fitted>(from.one_of("fitted", fitted_words));
    if (it.kind == Kind::Connector) {
        it.run = from.text("run");
        it.cavity[0] = from.text("h");
        if (from.has("l")) it.cavity[1] = from.text("l");
        if (from.has("after_m")) it.after_m = from.finite("after_m");
    }
    if (it.kind == Kind::Place || from.has("place")) {
        it.place = from.text("place");
        it.covers = from.texts("covers");
    }
    if (it.kind == Kind::Minutes) {
        it.off_minutes = from.finite("off_minutes");
        it.on_minutes = from.finite("on_minutes");
    }
}

void read(Members& from, PinsTried& into) {
    into.tried = from.whole("tried");
    into.slips = from.count("slips");
    if (into.slips > into.tried) from.refuse("slips", "is more than were tried");
}

void read(Members& from, Recommended& into) {
    into.json = from.text("advice");
}

// An amend's event is looked at before it is read, so that amends cannot nest.
void read(Members& from, Amend& into) {
    into.target = from.whole("target");
    const json& event = from.any("event");
    const std::string inner = Members(event, "amending event").text("kind");
    if (inner == "amend" || inner == "undo" || inner == "opened" || inner == "recommended")
        from.refuse("event", "is of kind \"" + inner + "\", which cannot take a record's place");
    into.event = std::make_shared<const Event>(event_from_json(event));
}

void read(Members& from, Undo& into) {
    into.target = from.whole("target");
}

template <std::size_t Index = 0>
Body read_body(Members& from, std::string_view wanted) {
    if constexpr (Index == std::variant_size_v<Body>) {
        from.refuse("kind", "holds \"" + std::string(wanted) + "\", which is not known to this version");
    } else {
        std::variant_alternative_t<Index, Body> body;
        if (kind(Event{body, {}}) != wanted) return read_body<Index + 1>(from, wanted);
        read(from, body);
        return body;
    }
}

}  // namespace

json to_json(const Event& event) {
    json result = std::visit([](const auto& body) { return members(body); }, event.body);
    result["kind"] = kind(event);
    if (event.minutes) result["minutes"] = minutes(*event.minutes);
    require_utf8(result);
    return result;
}

Event event_from_json(const json& json) {
    Members from(json, "event");
    Event event{read_body(from, from.text("kind")), {}};
    if (from.has("minutes")) {
        event.minutes = from.finite("minutes");
        if (*event.minutes < 0) from.refuse("minutes", "is below zero");
    }
    from.nothing_else();
    return event;
}

}  // namespace halfsplit::job
