#include "report/quote.hpp"

#include "halfsplit/base/units.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/json_out.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::report {

using nlohmann::json;

namespace {

// Minutes closer than this are told as equal.
constexpr double same_minutes = 1e-6;

std::string bound_words(const advice::Quote& quote) {
    if (quote.proven && quote.plans != "looks-last") return "";
    return fmt::format(" ({}; no plan below {})",
                       quote.proven ? "least where looks come last" : "not proven least",
                       format_minutes(quote.lower_bound_minutes));
}

}  // namespace

std::string aim_words(const advice::Quote& quote, const advice::Aim& aim) {
    const bool capped = std::isfinite(aim.worst_at_most);
    const bool kept = !capped || quote.worst_minutes <= aim.worst_at_most + same_minutes;
    const bool least = quote.worst_minutes <= quote.worst_lower_bound_minutes + same_minutes;
    const std::string this_one = least ? "the least"
                                       : fmt::format("the least known, none below {}",
                                                     format_minutes(quote.worst_lower_bound_minutes));
    if (!kept && quote.worst_lower_bound_minutes > aim.worst_at_most + same_minutes)
        return fmt::format("; no plan keeps to {}; this worst case is {}", format_minutes(aim.worst_at_most),
                           this_one);
    if (!kept) return fmt::format("; no plan known keeps to {}", format_minutes(aim.worst_at_most));
    if (aim.least_worst) return "; the worst case is " + this_one;
    return capped ? fmt::format("; the worst case kept to {}", format_minutes(aim.worst_at_most)) : "";
}

std::string quote_words(const advice::Quote& quote, const advice::Aim& aim, std::string_view from) {
    return fmt::format("expected {}, 90 % within {}, worst {}, from {} to {}, refitting included{}{}",
                       format_minutes(quote.expected_minutes), format_minutes(quote.ninety_minutes),
                       format_minutes(quote.worst_minutes), from, aim.isolate ? "isolation" : "the find",
                       bound_words(quote), aim_words(quote, aim));
}

std::string not_cured_words(const advice::NotCured& not_cured) {
    std::string text = fmt::format("a repair that did not take ({}): the same part again",
                                   format_chance(not_cured.repair_fails));
    if (not_cured.further_minutes > 0)
        text += fmt::format(
            "; a further fault ({}): at most about {} more to find it, with the covers off that are",
            format_chance(not_cured.second_fault), format_minutes(not_cured.further_minutes));
    return text;
}

std::string with_name(const std::string& id, const std::string& name) {
    return name.empty() || name == id ? id : fmt::format("{} ({})", id, name);
}

void add_costly_parts(const std::vector<advice::CostlyPart>& costly, std::string_view heading, Page& page) {
    constexpr std::size_t most_costly = 5, indent = 2, minutes_width = 12;
    if (costly.empty()) return;
    page.heading(heading);
    for (std::size_t i = 0; i < std::min(most_costly, costly.size()); ++i) {
        const advice::CostlyPart& part = costly[i];
        std::string text =
            fmt::format("{}: chance {}", with_name(part.part, part.name), format_chance(part.chance));
        if (part.hunt_minutes >= 0)
            text += fmt::format("; a hunt that ends there {}", format_minutes(part.hunt_minutes));
        page.labelled(format_minutes(part.minutes), text, indent, minutes_width);
    }
}

json not_cured_json(const advice::NotCured& not_cured) {
    return {{"repair_fails", not_cured.repair_fails},
            {"second_fault", not_cured.second_fault},
            {"further_minutes", rounded(not_cured.further_minutes)}};
}

json quote_json(const advice::Quote& quote) {
    return {{"expected_minutes", rounded(quote.expected_minutes)},
            {"ninety_minutes", rounded(quote.ninety_minutes)},
            {"worst_minutes", rounded(quote.worst_minutes)},
            {"lower_bound_minutes", rounded(quote.lower_bound_minutes)},
            {"worst_lower_bound_minutes", rounded(quote.worst_lower_bound_minutes)},
            {"proven", quote.proven},
            {"plans", quote.plans}};
}

json costly_json(const std::vector<advice::CostlyPart>& costly) {
    return listed(costly, [](const advice::CostlyPart& part) {
        json out{{"part", part.part},
                 {"name", part.name},
                 {"minutes", rounded(part.minutes)},
                 {"chance", rounded(part.chance)}};
        out["hunt_minutes"] = part.hunt_minutes < 0 ? json(nullptr) : json(rounded(part.hunt_minutes));
        return out;
    });
}

}  // namespace halfsplit::report
