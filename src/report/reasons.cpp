#include "report/reasons.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/quote.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::report {

using advice::Recommendation;

namespace {

void add_outcome(const advice::Forecast& outcome, StepSheet& sheet) {
    std::vector<std::string> parts;
    for (const advice::PartChance& part : outcome.leading) parts.push_back(part.part);
    std::string left = parts.empty() ? "nothing" : join(parts, " ");
    if (outcome.suspects_left > parts.size())
        left += fmt::format(" +{}", outcome.suspects_left - parts.size());
    sheet.add("if", fmt::format("{} ({}): leaves {}, {}", outcome.shows, format_chance(outcome.chance), left,
                                format_minutes(outcome.minutes_left)));
}

std::string compared(const advice::Alternative& other, const advice::Aim& aim) {
    const auto more = [](double minutes, std::string_view what) {
        if (std::abs(minutes) < 0.5) return fmt::format("as good {}", what);
        return fmt::format("{} {} {}", format_minutes(std::abs(minutes)), minutes > 0 ? "more" : "less",
                           what);
    };
    if (aim == advice::Aim{.isolate = aim.isolate})
        return other.more_minutes < 0.5 ? "as good" : format_minutes(other.more_minutes) + " more";
    return more(other.more_minutes, "expected") + ", " + more(other.more_worst_minutes, "at worst");
}

}  // namespace

void add_costs(const Recommendation& advice, StepSheet& sheet) {
    const advice::Quote& quote = advice.quote;
    std::string text =
        fmt::format("{} now, {} expected to {}, 90 % within {}, {} at worst{}",
                    format_minutes(advice.minutes_now), format_minutes(quote.expected_minutes),
                    advice.aim.isolate ? "isolation" : "the find", format_minutes(quote.ninety_minutes),
                    format_minutes(quote.worst_minutes), aim_words(quote, advice.aim));
    if (!advice.quote.proven) {
        text += fmt::format("; not proven: no plan does better than {}",
                            format_minutes(advice.quote.lower_bound_minutes));
    } else if (advice.quote.plans == "looks-last") {
        text += fmt::format("; proven where looks come last: no plan does better than {}",
                            format_minutes(advice.quote.lower_bound_minutes));
    }
    sheet.add("cost", text);
}

void add_outcomes(const Recommendation& advice, std::size_t enough, StepSheet& sheet) {
    std::vector<advice::Forecast> outcomes = advice.outcomes;
    while (outcomes.size() > enough)
        outcomes.erase(std::min_element(outcomes.begin(), outcomes.end(),
                                        [](const auto& a, const auto& b) { return a.chance < b.chance; }));
    double left = 0;
    for (const advice::Forecast& outcome : advice.outcomes) left += outcome.chance;
    for (const advice::Forecast& outcome : outcomes) {
        if (outcome.chance < 0.005) continue;
        add_outcome(outcome, sheet);
        left -= outcome.chance;
    }
    if (left >= 0.005) sheet.add("if", fmt::format("something else ({})", format_chance(left)));
}

void add_alternatives(const Recommendation& advice, StepSheet& sheet) {
    for (const advice::Alternative& other : advice.alternatives)
        sheet.add("or", in_words(other) + ": " + compared(other, advice.aim));
}

// "below 0.1 %", not "below under 0.1 %".
std::string threshold(double chance) {
    std::string words = format_chance(chance);
    for (const std::string_view bound : {"under ", "over "})
        if (words.starts_with(bound)) words.erase(0, bound.size());
    return words;
}

void add_turning_points(const Recommendation& advice, std::size_t enough, StepSheet& sheet) {
    for (std::size_t i = 0; i < std::min(enough, advice.turning_points.size()); ++i) {
        const advice::TurningPoint& nearest = advice.turning_points[i];
        sheet.add("turns", fmt::format("if {} {} {} ({} now): {}", nearest.part,
                                       nearest.at < nearest.now ? "falls below" : "rises above",
                                       threshold(nearest.at), format_chance(nearest.now), nearest.instead));
    }
}

}  // namespace halfsplit::report
