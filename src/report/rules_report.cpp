#include "halfsplit/report/rules_report.hpp"

#include "halfsplit/base/units.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/json_out.hpp"
#include "report/page.hpp"

namespace halfsplit::report {

using nlohmann::json;

namespace {

std::string words_of_rule(std::string_view rule) {
    if (rule == "plan") return "the plan";
    if (rule == "walk") return "one reading after the other, as far as they tell anything";
    if (rule == "half-by-count") return "half by count: as many suspects on either side as can be";
    if (rule == "half-by-probability") return "half by chance: as likely on either side as can be";
    return "the most told per minute";
}

}  // namespace

std::string rules_text(std::string_view of, const std::vector<plan::ByRule>& rules, std::size_t columns) {
    constexpr std::size_t indent = 2, minutes_width = 12;
    if (rules.empty()) return "";
    Page page(columns);
    page.heading(fmt::format("BY RULE OF THUMB{}{}, for a fault that is there and readings that are right",
                             of.empty() ? "" : ", ", of));
    for (const plan::ByRule& rule : rules)
        page.labelled(
            format_minutes(rule.expected_minutes),
            fmt::format("{}; worst {}", words_of_rule(rule.rule), format_minutes(rule.worst_minutes)), indent,
            minutes_width);
    return "\n" + page.text();
}

json rules_json(const std::vector<plan::ByRule>& rules) {
    return listed(rules, [](const plan::ByRule& rule) {
        return json{{"rule", rule.rule},
                    {"expected_minutes", rounded(rule.expected_minutes)},
                    {"worst_minutes", rounded(rule.worst_minutes)}};
    });
}

}  // namespace halfsplit::report
