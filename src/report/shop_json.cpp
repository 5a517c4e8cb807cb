#include "halfsplit/base/clock.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/report/shop_report.hpp"

#include <nlohmann/json.hpp>

#include "base/json_out.hpp"
#include "report/csv_rows.hpp"

namespace halfsplit::report {

using nlohmann::json;

namespace {

json shop_job_json(const advice::ShopJob& job) {
    json out{{"file", job.file},
             {"vehicle", job.vehicle},
             {"network", job.network},
             {"opened", format_time(job.opened)},
             {"last", format_time(job.last)},
             {"proof", word(job.proof)},
             {"closed", job.closed},
             {"spent_minutes", rounded(job.spent)},
             {"causes", job.causes},
             {"readings", job.readings},
             {"slips", job.slips},
             {"detours", job.detours},
             {"detours_paid", job.detours_paid},
             {"detour_minutes", rounded(job.detour_minutes)}};
    if (job.expected > 0) {
        out["expected_minutes"] = rounded(job.expected);
        out["to_find_minutes"] = rounded(job.to_find);
    }
    return out;
}

json share_json(std::size_t count, const advice::Interval& interval) {
    return {{"count", count}, {"low", rounded(interval.low)}, {"high", rounded(interval.high)}};
}

json kind_json(const advice::KindFailed& kind) {
    return {{"kind", word(kind.kind)},
            {"failed", kind.failed},
            {"share_low", rounded(kind.share.low)},
            {"share_high", rounded(kind.share.high)},
            {"assumed", rounded(kind.assumed)},
            {"factor", rounded(kind.factor)}};
}

json offered_json(const advice::Shop& shop) {
    const harness::Assumptions figures = advice::offered(shop);
    return {{"connector_weight", rounded(figures.connector_weight)},
            {"plug_weight", rounded(figures.plug_weight)},
            {"splice_weight", rounded(figures.splice_weight)},
            {"terminator_weight", rounded(figures.terminator_weight)},
            {"module_weight", rounded(figures.module_weight)},
            {"wire_weight_per_m", rounded(figures.wire_weight_per_m)},
            {"contact_slip", rounded(figures.contact_slip)}};
}

}  // namespace

json shop_json(const advice::Shop& shop, const Unread& unread) {
    json refused = json::array();
    for (const auto& [file, reason] : unread) refused.push_back({{"file", file}, {"problem", reason}});
    return {{"jobs", listed(shop.jobs, shop_job_json)},
            {"unread", refused},
            {"cured", shop.cured},
            {"closed", shop.closed},
            {"spent_minutes", rounded(shop.spent)},
            {"compared", shop.compared},
            {"expected_minutes", rounded(shop.expected)},
            {"to_find_minutes", rounded(shop.to_find)},
            {"causes", shop.causes},
            {"kinds", listed(shop.kinds, kind_json)},
            {"readings", shop.readings},
            {"slips", share_json(shop.slips, shop.slip_share)},
            {"detours", shop.detours},
            {"detours_paid", shop.detours_paid},
            {"detour_minutes", rounded(shop.detour_minutes)},
            {"offered_assumptions", offered_json(shop)}};
}

std::string shop_csv(const advice::Shop& shop, const Unread& unread) {
    static const std::vector<std::string_view> columns{"file",
                                                       "vehicle",
                                                       "network",
                                                       "opened",
                                                       "last",
                                                       "proof",
                                                       "closed",
                                                       "causes",
                                                       "spent_minutes",
                                                       "expected_minutes",
                                                       "to_find_minutes",
                                                       "readings",
                                                       "slips",
                                                       "detours",
                                                       "detours_paid",
                                                       "detour_minutes",
                                                       "problem"};
    std::vector<json> rows;
    for (const advice::ShopJob& job : shop.jobs) {
        json row = shop_job_json(job);
        row["causes"] = join(job.causes, " ");
        rows.push_back(std::move(row));
    }
    for (const auto& [file, reason] : unread) rows.push_back({{"file", file}, {"problem", reason}});
    return csv_rows(columns, rows);
}

}  // namespace halfsplit::report
