// All saved jobs of a shop, side by side: what was expected and spent, which kinds of part failed, how often
// a reading slipped, which detours paid. Counts come with 95 % intervals, and what they would make of the
// assumed figures is offered, never applied.
#pragma once

#include "halfsplit/advice/review.hpp"
#include "halfsplit/harness/harness.hpp"

#include <array>
#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::advice {

// The kinds of part that the shop's figures are kept by; a module's own plug counts with the module.
inline constexpr std::array<harness::PartKind, 6> shop_kinds{
    harness::PartKind::Connector,  harness::PartKind::BridgePlug, harness::PartKind::Splice,
    harness::PartKind::Terminator, harness::PartKind::Module,     harness::PartKind::Run};

// What of one job goes into the shop's figures. Minutes are labour.
struct ShopJob {
    std::string file, vehicle, network;
    UnixSeconds opened = 0, last = 0;
    Proof proof = Proof::None;
    bool closed = false;
    double spent = 0;
    double expected = 0, to_find = 0;  // by the first advice, and what it took; 0: not known
    std::vector<std::string> causes;   // parts
    // By shop_kinds: parts that were the cause, and how many of each kind the assumed figures say that so
    // many causes would be.
    std::array<std::size_t, shop_kinds.size()> failed{};
    std::array<double, shop_kinds.size()> assumed{};
    std::size_t readings = 0, slips = 0;  // that count; that stand against the rest of the log
    std::size_t detours = 0, detours_paid = 0;
    double detour_minutes = 0;  // more than advised, all together
    bool settled = false;       // cured: its causes and slips are taken for known
};

// `harness`: what the job was opened on, as the review was made with. Linear.
ShopJob shop_job(const std::string& file, const Review& review, const harness::Harness& harness,
                 harness::Index network);

struct Interval {
    double low = 0, high = 0;
};

// 95 % interval of a share, by its score (Wilson 1927): low and high solve |p - count / of| = z sqrt(p (1 -
// p) / of). `of` = 0: from 0 to 1.
Interval share_interval(std::size_t count, std::size_t of);

struct KindFailed {
    harness::PartKind kind = harness::PartKind::Connector;
    std::size_t failed = 0;
    Interval share;      // of all causes
    double assumed = 0;  // how many the assumed figures expect among so many causes
    double factor = 1;   // what to multiply the assumed weight by: (failed + k) / (assumed + k)
};
// k of the factor: the assumed figures count as much as so many causes of each kind. A judgement, no source.
inline constexpr double assumed_strength = 3;

struct Shop {
    std::vector<ShopJob> jobs;  // as given
    std::size_t cured = 0, closed = 0;
    double spent = 0;
    double expected = 0, to_find = 0;  // of the jobs where both are known
    std::size_t compared = 0;          // how many those are
    std::size_t causes = 0;            // of cured jobs
    std::vector<KindFailed> kinds;     // by shop_kinds
    std::size_t readings = 0, slips = 0;
    Interval slip_share;
    std::size_t detours = 0, detours_paid = 0;
    double detour_minutes = 0;
};

Shop shop(std::vector<ShopJob> jobs);

// The assumptions of a harness file as the shop's jobs would have them, from the figures that stand where a
// file says nothing: weights by kind, and the chance that a contact slips.
harness::Assumptions offered(const Shop& shop);

}  // namespace halfsplit::advice
