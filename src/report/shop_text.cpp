#include "halfsplit/base/clock.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/report/shop_report.hpp"

#include <fmt/format.h>

#include "report/page.hpp"

#include <cmath>

namespace halfsplit::report {

namespace {

constexpr std::size_t shop_label = 12;

std::string share_words(const advice::Interval& share) {
    return fmt::format("{:.0f} to {:.0f} %", 100 * share.low, 100 * share.high);
}

std::string proof_words(const advice::ShopJob& job) {
    std::string words = job.proof == advice::Proof::Cured      ? "cured"
                        : job.proof == advice::Proof::Partial  ? "proof not whole"
                        : job.proof == advice::Proof::NotCured ? "not cured"
                                                               : "no proof";
    return words + (job.closed ? ", closed" : ", open");
}

void add_job(const advice::ShopJob& job, Page& page) {
    std::string text = printable(job.vehicle) + ", " + printable(job.network) + ": " + proof_words(job);
    if (!job.causes.empty()) text += "; cause " + join_words(job.causes);
    text += fmt::format("; {} spent", format_minutes(job.spent));
    if (job.expected > 0)
        text += fmt::format(", {} to find (expected {})", format_minutes(job.to_find),
                            format_minutes(job.expected));
    page.paragraph(printable(job.file));
    page.paragraph(text, 2);
}

void add_minutes(const advice::Shop& shop, Page& page) {
    page.labelled("jobs", fmt::format("{}, {} cured, {} closed", shop.jobs.size(), shop.cured, shop.closed),
                  0, shop_label);
    page.labelled("minutes", format_minutes(shop.spent) + " spent", 0, shop_label);
    if (shop.compared > 0)
        page.labelled("expected",
                      fmt::format("{} to find, {} taken, over {}", format_minutes(shop.expected),
                                  format_minutes(shop.to_find), counted(shop.compared, "job")),
                      0, shop_label);
    if (shop.detours > 0)
        page.labelled("detours",
                      fmt::format("{}, {} paid; {} {} than advised, all together", shop.detours,
                                  shop.detours_paid, format_minutes(std::abs(shop.detour_minutes)),
                                  shop.detour_minutes < 0 ? "less" : "more"),
                      0, shop_label);
    page.labelled("slips",
                  fmt::format("{} of {} ({})", shop.slips, counted(shop.readings, "reading"),
                              share_words(shop.slip_share)),
                  0, shop_label);
}

void add_kinds(const advice::Shop& shop, Page& page) {
    page.heading(fmt::format("What failed, of {} in cured jobs", counted(shop.causes, "cause")));
    for (const advice::KindFailed& kind : shop.kinds)
        page.labelled(
            word(kind.kind),
            fmt::format("{} ({}); assumed {:.1f}", kind.failed, share_words(kind.share), kind.assumed), 0,
            shop_label);
}

void add_offer(const advice::Shop& shop, Page& page) {
    const harness::Assumptions offer = advice::offered(shop);
    page.heading("Offered for \"assumptions\" of a harness file");
    page.paragraph(
        fmt::format("\"connector_weight\": {:.3g}, \"plug_weight\": {:.3g}, \"splice_weight\": "
                    "{:.3g}, \"terminator_weight\": {:.3g}, \"module_weight\": {:.3g}, "
                    "\"wire_weight_per_m\": {:.3g}, \"contact_slip\": {:.3g}",
                    offer.connector_weight, offer.plug_weight, offer.splice_weight, offer.terminator_weight,
                    offer.module_weight, offer.wire_weight_per_m, offer.contact_slip));
    page.paragraph(
        "Nothing is applied by itself. The assumed figures count beside the shop's as if they were "
        "three causes of each kind and three slips (a judgement).");
}

}  // namespace

std::string shop_text(const advice::Shop& shop, const Unread& unread, std::size_t columns) {
    Page page(columns);
    add_minutes(shop, page);
    add_kinds(shop, page);
    add_offer(shop, page);
    page.heading("Jobs");
    for (const advice::ShopJob& job : shop.jobs) add_job(job, page);
    if (unread.empty()) return page.text();
    page.heading("Not read");
    for (const auto& [file, reason] : unread) {
        page.paragraph(printable(file));
        page.paragraph(printable(reason), 2);
    }
    return page.text();
}

}  // namespace halfsplit::report
