#include "halfsplit/advice/recommendation_json.hpp"

#include <nlohmann/json.hpp>

#include "advice/step_json.hpp"
#include "base/json_out.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace halfsplit::advice {

using nlohmann::json;

namespace {

double ohm_from_json(const json& value) {
    return value.is_string() ? std::numeric_limits<double>::infinity() : value.get<double>();
}

Action action_from(const std::string& text) {
    for (int i = 0; i <= static_cast<int>(Action::Closed); ++i) {
        if (word(static_cast<Action>(i)) == text) return static_cast<Action>(i);
    }
    throw std::invalid_argument("recommendation: unknown action '" + text + "'");
}

}  // namespace

// Jobs written before a reading could be laid to one wire have neither of the two about it.
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Doubt, sequence, red, black, shown, expected, chance_of_slip,
                                                slips, probably_on, chance_of_that, recheck_minutes)

void to_json(json& out, const LocatedView& located) {
    out = {{"sequence", located.sequence},
           {"from", located.from},
           {"to", located.to},
           {"metres", rounded(located.metres)},
           {"deviation", rounded(located.deviation)},
           {"run", located.run},
           {"run_end", located.run_end},
           {"metres_into_run", rounded(located.metres_into_run)},
           {"also", located.also},
           {"counts", located.counts},
           {"in_words", located.in_words}};
}
void from_json(const json& in, LocatedView& located) {
    in.at("sequence").get_to(located.sequence);
    in.at("from").get_to(located.from);
    in.at("to").get_to(located.to);
    in.at("metres").get_to(located.metres);
    in.at("deviation").get_to(located.deviation);
    in.at("run").get_to(located.run);
    in.at("run_end").get_to(located.run_end);
    in.at("metres_into_run").get_to(located.metres_into_run);
    in.at("also").get_to(located.also);
    in.at("counts").get_to(located.counts);
    in.at("in_words").get_to(located.in_words);
}

void to_json(json& out, const PartChance& chance) {
    out = {{"part", chance.part}, {"name", chance.name}, {"probability", rounded(chance.probability)}};
}
void from_json(const json& in, PartChance& chance) {
    in.at("part").get_to(chance.part);
    in.at("name").get_to(chance.name);
    in.at("probability").get_to(chance.probability);
}

void to_json(json& out, const SuspectView& suspect) {
    out = {{"part", suspect.part},
           {"name", suspect.name},
           {"fault", suspect.fault},
           {"in_words", suspect.in_words},
           {"probability", rounded(suspect.probability)}};
}
void from_json(const json& in, SuspectView& suspect) {
    in.at("part").get_to(suspect.part);
    in.at("name").get_to(suspect.name);
    in.at("fault").get_to(suspect.fault);
    in.at("in_words").get_to(suspect.in_words);
    in.at("probability").get_to(suspect.probability);
}

void to_json(json& out, const Forecast& forecast) {
    out = {{"shows", forecast.shows},
           {"low_ohm", ohm_to_json(forecast.low_ohm)},
           {"high_ohm", ohm_to_json(forecast.high_ohm)},
           {"low_volt", rounded(forecast.low_volt)},
           {"high_volt", rounded(forecast.high_volt)},
           {"answering", forecast.answering},
           {"chance", rounded(forecast.chance)},
           {"minutes_left", rounded(forecast.minutes_left)},
           {"suspects_left", forecast.suspects_left},
           {"leading", forecast.leading}};
}
void from_json(const json& in, Forecast& forecast) {
    in.at("shows").get_to(forecast.shows);
    forecast.low_ohm = ohm_from_json(in.at("low_ohm"));
    forecast.high_ohm = ohm_from_json(in.at("high_ohm"));
    forecast.low_volt = in.value("low_volt", 0.0);
    forecast.high_volt = in.value("high_volt", 0.0);
    forecast.answering = in.value("answering", std::vector<std::string>{});
    in.at("chance").get_to(forecast.chance);
    in.at("minutes_left").get_to(forecast.minutes_left);
    in.at("suspects_left").get_to(forecast.suspects_left);
    in.at("leading").get_to(forecast.leading);
}

void to_json(json& out, const Alternative& other) {
    out = {{"action", word(other.action)},
           {"red", other.red},
           {"black", other.black},
           {"part", other.part},
           {"quantity", other.quantity},
           {"prepare", other.prepare},
           {"expected_minutes", rounded(other.expected_minutes)},
           {"more_minutes", rounded(other.more_minutes)},
           {"more_worst_minutes", rounded(other.more_worst_minutes)}};
}
void from_json(const json& in, Alternative& other) {
    other.action = action_from(in.at("action"));
    in.at("red").get_to(other.red);
    in.at("black").get_to(other.black);
    in.at("part").get_to(other.part);
    other.quantity = in.value("quantity", "ohm");
    other.prepare = in.value("prepare", "");
    in.at("expected_minutes").get_to(other.expected_minutes);
    in.at("more_minutes").get_to(other.more_minutes);
    other.more_worst_minutes = in.value("more_worst_minutes", 0.0);
}

void to_json(json& out, const TurningPoint& point) {
    out = {{"part", point.part},
           {"name", point.name},
           {"now", rounded(point.now)},
           {"at", rounded(point.at)},
           {"instead", point.instead}};
}
void from_json(const json& in, TurningPoint& point) {
    in.at("part").get_to(point.part);
    in.at("name").get_to(point.name);
    in.at("now").get_to(point.now);
    in.at("at").get_to(point.at);
    in.at("instead").get_to(point.instead);
}

void to_json(json& out, const Aim& aim) {
    out = {{"least", aim.least_worst ? "worst" : "expected"},
           {"worst_at_most",
            std::isfinite(aim.worst_at_most) ? json(rounded(aim.worst_at_most)) : json(nullptr)},
           {"until", aim.isolate ? "isolated" : "bare"}};
}
void from_json(const json& in, Aim& aim) {
    aim.least_worst = in.at("least") == "worst";
    if (in.at("worst_at_most").is_number()) in.at("worst_at_most").get_to(aim.worst_at_most);
    aim.isolate = in.at("until") == "isolated";
}

json to_json(const Recommendation& advice) {
    return {{"action", word(advice.action)},
            {"red", advice.red},
            {"black", advice.black},
            {"quantity", advice.quantity},
            {"bus", advice.bus},
            {"target", advice.target},
            {"recheck", advice.recheck},
            {"prepare", advice.prepare},
            {"move_loom", advice.move_loom},
            {"travel_to", advice.travel_to},
            {"travel_minutes", rounded(advice.travel_minutes)},
            {"covers", advice.covers},
            {"cautions", advice.cautions},
            {"minutes_now", rounded(advice.minutes_now)},
            {"expected_minutes", rounded(advice.quote.expected_minutes)},
            {"ninety_minutes", rounded(advice.quote.ninety_minutes)},
            {"worst_minutes", rounded(advice.quote.worst_minutes)},
            {"lower_bound_minutes", rounded(advice.quote.lower_bound_minutes)},
            {"proven", advice.quote.proven},
            {"plans", advice.quote.plans},
            {"aim", advice.aim},
            {"worst_lower_bound_minutes", rounded(advice.quote.worst_lower_bound_minutes)},
            {"outcomes", advice.outcomes},
            {"alternatives", advice.alternatives},
            {"turning_points", advice.turning_points},
            {"suspects", advice.suspects},
            {"parts", advice.parts},
            {"cleared", advice.cleared},
            {"nothing_wrong", rounded(advice.nothing_wrong)},
            {"two_faults", advice.two_faults},
            {"comes_and_goes", rounded(advice.comes_and_goes)},
            {"quieted", advice.quieted},
            {"doubts", advice.doubts},
            {"located", advice.located},
            {"cannot_tell", advice.cannot_tell},
            {"covers_to_refit", advice.covers_to_refit},
            {"parts_to_reconnect", advice.parts_to_reconnect},
            {"assumed", advice.assumed}};
}

Recommendation recommendation_from_json(const json& in) {
    try {
        Recommendation advice;
        advice.action = action_from(in.at("action"));
        in.at("red").get_to(advice.red);
        in.at("black").get_to(advice.black);
        in.at("target").get_to(advice.target);
        in.at("recheck").get_to(advice.recheck);
        // Jobs written before volts were advised have ohms alone, and those before preparations none.
        advice.quantity = in.value("quantity", "ohm");
        advice.bus = in.value("bus", "");
        if (in.contains("prepare")) in.at("prepare").get_to(advice.prepare);
        // Nor do those from before faults could come and go know of that.
        advice.move_loom = in.value("move_loom", false);
        advice.comes_and_goes = in.value("comes_and_goes", 0.0);
        if (in.contains("quieted")) in.at("quieted").get_to(advice.quieted);
        in.at("travel_to").get_to(advice.travel_to);
        in.at("travel_minutes").get_to(advice.travel_minutes);
        in.at("covers").get_to(advice.covers);
        in.at("cautions").get_to(advice.cautions);
        in.at("minutes_now").get_to(advice.minutes_now);
        in.at("expected_minutes").get_to(advice.quote.expected_minutes);
        advice.quote.ninety_minutes = in.value("ninety_minutes", 0.0);
        in.at("worst_minutes").get_to(advice.quote.worst_minutes);
        in.at("lower_bound_minutes").get_to(advice.quote.lower_bound_minutes);
        in.at("proven").get_to(advice.quote.proven);
        advice.quote.plans = in.value("plans", "looks-last");
        // Jobs written before there was a choice of aims have none.
        if (in.contains("aim")) in.at("aim").get_to(advice.aim);
        advice.quote.worst_lower_bound_minutes = in.value("worst_lower_bound_minutes", 0.0);
        if (in.contains("turning_points")) in.at("turning_points").get_to(advice.turning_points);
        in.at("outcomes").get_to(advice.outcomes);
        in.at("alternatives").get_to(advice.alternatives);
        in.at("suspects").get_to(advice.suspects);
        in.at("parts").get_to(advice.parts);
        in.at("cleared").get_to(advice.cleared);
        in.at("nothing_wrong").get_to(advice.nothing_wrong);
        in.at("two_faults").get_to(advice.two_faults);
        in.at("doubts").get_to(advice.doubts);
        // Jobs written before distances were measured have none.
        if (in.contains("located")) in.at("located").get_to(advice.located);
        in.at("cannot_tell").get_to(advice.cannot_tell);
        in.at("covers_to_refit").get_to(advice.covers_to_refit);
        in.at("parts_to_reconnect").get_to(advice.parts_to_reconnect);
        in.at("assumed").get_to(advice.assumed);
        return advice;
    } catch (const json::exception& error) {
        throw std::invalid_argument(std::string("recommendation: ") + error.what());
    }
}

std::string to_text(const Recommendation& recommendation) {
    return to_json(recommendation).dump();
}

Recommendation from_text(std::string_view text) {
    try {
        return recommendation_from_json(json::parse(text));
    } catch (const json::exception& error) {
        throw std::invalid_argument(std::string("recommendation: ") + error.what());
    }
}

}  // namespace halfsplit::advice
