#include "halfsplit/advice/shop.hpp"

#include "halfsplit/diagnosis/prior.hpp"
#include "halfsplit/harness/vehicle.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <variant>

namespace halfsplit::advice {

using harness::Harness;
using harness::Index;
using harness::PartKind;

namespace {

constexpr std::size_t no_kind = shop_kinds.size();

std::size_t kind_of(PartKind kind) {
    const auto found = std::find(shop_kinds.begin(), shop_kinds.end(), kind);
    return static_cast<std::size_t>(found - shop_kinds.begin());
}

bool on_network(const harness::Part& part, Index network) {
    if (part.network == network) return true;
    return std::any_of(part.attachments.begin(), part.attachments.end(),
                       [&](const harness::Attachment& each) { return each.network == network; });
}

// Connectors carry any network: those count that have a terminal on this one.
std::vector<char> parts_on(const Harness& harness, Index network) {
    std::vector<char> on(harness.parts.size(), 0);
    for (Index i = 0; i < harness.parts.size(); ++i) on[i] = on_network(harness.parts[i], network) ? 1 : 0;
    for (const harness::Terminal& terminal : harness.terminals)
        if (terminal.part != harness::none && terminal.network == network) on[terminal.part] = 1;
    const std::vector<harness::Fitted> fitted = harness::presence(harness);
    for (Index i = 0; i < on.size(); ++i)
        if (fitted[i] == harness::Fitted::No) on[i] = 0;
    return on;
}

// The share of each kind among all causes, by the assumed weights.
std::array<double, shop_kinds.size()> assumed_shares(const Harness& harness, Index network) {
    std::array<double, shop_kinds.size()> shares{};
    double total = 0;
    const std::vector<char> on = parts_on(harness, network);
    for (Index i = 0; i < harness.parts.size(); ++i) {
        const std::size_t kind = kind_of(harness.parts[i].kind);
        if (on[i] == 0 || kind == no_kind) continue;
        const double weight = diagnosis::part_weight(harness, i);
        shares[kind] += weight;
        total += weight;
    }
    for (double& share : shares) share /= total > 0 ? total : 1;
    return shares;
}

bool is_slip(const Contradiction& contradiction) {
    return contradiction.undone_by != 0 || contradiction.amended_by != 0 || contradiction.reread_by != 0 ||
           contradiction.at_end.value_or(0) > contradicts;
}

void count_causes(const Review& review, const Harness& harness, Index network, ShopJob& job) {
    std::set<std::string> causes;
    for (const ReviewedRepair& repair : review.repairs)
        if (repair.cause) causes.insert(repair.repair.part);
    job.causes.assign(causes.begin(), causes.end());
    const auto shares = assumed_shares(harness, network);
    for (const std::string& cause : causes) {
        const Index part = harness::find_part(harness, cause);
        const std::size_t kind = part == harness::none ? no_kind : kind_of(harness.parts[part].kind);
        if (kind == no_kind) continue;
        ++job.failed[kind];
        for (std::size_t i = 0; i < shares.size(); ++i) job.assumed[i] += shares[i];
    }
}

void count_readings(const Review& review, ShopJob& job) {
    for (const ReviewStep& step : review.steps) {
        const auto* reading = std::get_if<job::Reading>(&step.event.body);
        if (reading != nullptr && reading->outcome != job::Outcome::CouldNotReach) ++job.readings;
    }
    job.slips = static_cast<std::size_t>(
        std::count_if(review.contradictions.begin(), review.contradictions.end(), is_slip));
}

void count_detours(const Review& review, ShopJob& job) {
    for (const Detour& detour : review.detours) {
        if (!detour.counts) continue;
        ++job.detours;
        if (detour.found_it || detour.more_minutes < 0) ++job.detours_paid;
        job.detour_minutes += detour.more_minutes;
    }
}

}  // namespace

ShopJob shop_job(const std::string& file, const Review& review, const Harness& harness, Index network) {
    ShopJob job;
    job.file = file;
    job.vehicle = review.vehicle.empty() ? review.title : review.vehicle;
    job.network = review.network;
    job.opened = review.opened;
    job.last = review.last;
    job.proof = review.proof;
    job.closed = review.open.closed;
    job.spent = review.minutes.spent;
    job.settled = review.proof == Proof::Cured;
    if (review.minutes.first_advice != 0 && review.minutes.to_find) {
        job.expected = review.minutes.expected;
        job.to_find = *review.minutes.to_find;
    }
    count_causes(review, harness, network, job);
    count_readings(review, job);
    count_detours(review, job);
    return job;
}

Interval share_interval(std::size_t count, std::size_t of) {
    if (of == 0) return {0, 1};
    constexpr double z = 1.959964;  // 97.5 % point of the normal distribution
    const auto n = static_cast<double>(of);
    const double share = static_cast<double>(count) / n;
    const double middle = share + z * z / (2 * n);
    const double spread = z * std::sqrt(share * (1 - share) / n + z * z / (4 * n * n));
    const double scale = 1 + z * z / n;
    return {std::max(0.0, (middle - spread) / scale), std::min(1.0, (middle + spread) / scale)};
}

Shop shop(std::vector<ShopJob> jobs) {
    Shop all;
    std::array<std::size_t, shop_kinds.size()> failed{};
    std::array<double, shop_kinds.size()> assumed{};
    for (const ShopJob& job : jobs) {
        all.cured += job.settled ? 1 : 0;
        all.closed += job.closed ? 1 : 0;
        all.spent += job.spent;
        if (job.expected > 0) {
            ++all.compared;
            all.expected += job.expected;
            all.to_find += job.to_find;
        }
        all.detours += job.detours;
        all.detours_paid += job.detours_paid;
        all.detour_minutes += job.detour_minutes;
        if (!job.settled) continue;
        all.readings += job.readings;
        all.slips += job.slips;
        for (std::size_t i = 0; i < failed.size(); ++i) {
            failed[i] += job.failed[i];
            assumed[i] += job.assumed[i];
            all.causes += job.failed[i];
        }
    }
    for (std::size_t i = 0; i < failed.size(); ++i)
        all.kinds.push_back(
            {shop_kinds[i], failed[i], share_interval(failed[i], all.causes), assumed[i],
             (static_cast<double>(failed[i]) + assumed_strength) / (assumed[i] + assumed_strength)});
    all.slip_share = share_interval(all.slips, all.readings);
    all.jobs = std::move(jobs);
    return all;
}

harness::Assumptions offered(const Shop& shop) {
    harness::Assumptions figures;
    const auto factor = [&](PartKind kind) { return shop.kinds.at(kind_of(kind)).factor; };
    figures.connector_weight *= factor(PartKind::Connector);
    figures.plug_weight *= factor(PartKind::BridgePlug);
    figures.splice_weight *= factor(PartKind::Splice);
    figures.terminator_weight *= factor(PartKind::Terminator);
    figures.wire_weight_per_m *= factor(PartKind::Run);
    figures.module_weight *= factor(PartKind::Module);
    // As many readings as would make the assumed chance one slip in so many causes count beside the shop's.
    const double before = assumed_strength / figures.contact_slip;
    figures.contact_slip =
        (static_cast<double>(shop.slips) + assumed_strength) / (static_cast<double>(shop.readings) + before);
    return figures;
}

}  // namespace halfsplit::advice
