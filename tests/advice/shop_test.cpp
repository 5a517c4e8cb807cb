// All jobs of a shop together: intervals against published values, counts against jobs written by hand, and
// what is offered for the assumed figures.
#include "halfsplit/advice/shop.hpp"

#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/diagnosis/prior.hpp"
#include "halfsplit/harness/vehicle.hpp"

#include "support/catch.hpp"
#include "support/sample_jobs.hpp"

#include <algorithm>

using namespace halfsplit;
using namespace halfsplit::advice;

namespace {

ShopJob read_shop_job(const std::vector<job::Record>& records) {
    const Subject subject = subject_of(records);
    return shop_job("a.job", retrospect(records, subject.harness, subject.network), subject.harness,
                    subject.network);
}

std::size_t failed_in_all(const Shop& all) {
    std::size_t sum = 0;
    for (const KindFailed& kind : all.kinds) sum += kind.failed;
    return sum;
}

}  // namespace

TEST_CASE("a share has the interval that its score gives") {
    // Newcombe, Two-sided confidence intervals for the single proportion, Statistics in Medicine 17 (1998)
    // 857-872, table I, method 3 (Wilson); quoted from memory, and equal to the formula to four places.
    struct Row {
        std::size_t count, of;
        double low, high;
    };
    for (const Row& row : {Row{81, 263, 0.2553, 0.3662}, Row{15, 148, 0.0624, 0.1605},
                           Row{0, 20, 0.0000, 0.1611}, Row{1, 29, 0.0061, 0.1718}}) {
        INFO(row.count << " of " << row.of);
        const Interval interval = share_interval(row.count, row.of);
        CHECK(interval.low == Approx(row.low).margin(5e-5));
        CHECK(interval.high == Approx(row.high).margin(5e-5));
    }
    CHECK(share_interval(0, 0).high == 1);
    CHECK(share_interval(20, 20).high == Approx(1));
}

TEST_CASE("a job that was cured counts with its causes, its slips and its detours") {
    const auto records = test::job_with_a_repair_that_did_not_cure();
    const Review review = retrospect(records);
    const ShopJob one = read_shop_job(records);
    CHECK(one.settled);
    CHECK(one.closed);
    CHECK(one.spent == review.minutes.spent);
    std::size_t causes = 0;
    for (const ReviewedRepair& repair : review.repairs) causes += repair.cause ? 1 : 0;
    REQUIRE(causes > 0);
    CHECK(one.causes.size() == causes);
    CHECK(one.detours == review.detours.size());
    CHECK(one.slips >= 1);
    double assumed = 0;
    for (const double share : one.assumed) assumed += share;
    CHECK(assumed == Approx(static_cast<double>(causes)));
}

TEST_CASE("wires count among the assumed causes by their metres, as other kinds do by the weight of each") {
    const auto records = test::job_with_a_repair_that_did_not_cure();
    const Subject subject = subject_of(records);
    std::array<double, shop_kinds.size()> expected{};
    double total = 0;
    for (harness::Index part = 0; part < subject.harness.parts.size(); ++part) {
        const auto kind = std::find(shop_kinds.begin(), shop_kinds.end(), subject.harness.parts[part].kind) -
                          shop_kinds.begin();
        if (kind == static_cast<std::ptrdiff_t>(shop_kinds.size())) continue;
        if (harness::presence(subject.harness)[part] == harness::Fitted::No) continue;
        const double weight = diagnosis::part_weight(subject.harness, part);
        expected[static_cast<std::size_t>(kind)] += weight;
        total += weight;
    }
    const ShopJob one = read_shop_job(records);
    const auto causes = static_cast<double>(one.causes.size());
    REQUIRE(subject.harness.networks.size() == 1);
    for (std::size_t kind = 0; kind < shop_kinds.size(); ++kind)
        CHECK(one.assumed[kind] == Approx(causes * expected[kind] / total));
}

TEST_CASE("an open job counts in minutes and in nothing that it has not proven") {
    const ShopJob open = read_shop_job(test::job_left_open());
    CHECK_FALSE(open.settled);
    const Shop all = shop({open, read_shop_job(test::job_with_a_repair_that_did_not_cure())});
    CHECK(all.jobs.size() == 2);
    CHECK(all.cured == 1);
    CHECK(all.spent == Approx(all.jobs[0].spent + all.jobs[1].spent));
    CHECK(all.causes == all.jobs[1].causes.size());
    CHECK(failed_in_all(all) == all.causes);
    CHECK(all.readings == all.jobs[1].readings);
}

TEST_CASE("without jobs the figures offered are the assumed ones, and many jobs lead away from them") {
    const harness::Assumptions assumed;
    const harness::Assumptions none = offered(shop({}));
    CHECK(none.connector_weight == Approx(assumed.connector_weight));
    CHECK(none.wire_weight_per_m == Approx(assumed.wire_weight_per_m));
    CHECK(none.contact_slip == Approx(assumed.contact_slip));
    ShopJob job;
    job.settled = true;
    job.failed = {1, 0, 0, 0, 0, 0};
    job.assumed = {0.5, 0, 0, 0, 0.5, 0};
    job.readings = 10;
    job.slips = 1;
    const harness::Assumptions many = offered(shop(std::vector<ShopJob>(100, job)));
    CHECK(many.connector_weight == Approx(assumed.connector_weight * (100 + 3) / (50 + 3)));
    CHECK(many.module_weight == Approx(assumed.module_weight * 3 / (50 + 3)));
    CHECK(many.splice_weight == Approx(assumed.splice_weight));
    CHECK(many.contact_slip == Approx((100 + 3) / (1000 + 3 / assumed.contact_slip)));
}
