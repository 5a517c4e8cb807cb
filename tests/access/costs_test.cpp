#include "halfsplit/access/costs.hpp"

#include "support/catch.hpp"
#include "support/small_chain.hpp"

using namespace halfsplit;

TEST_CASE("covers that stand before another network's parts do not count") {
    // A file that check calls sound once failed here: 64 covers is the limit of one network, not of a file.
    harness::Harness harness = test::small_chain();
    harness::Part other;
    other.kind = harness::PartKind::Connector;
    other.id = "Z1";
    other.access.place = 0;
    for (int i = 0; i < 70; ++i) {
        other.access.covers.push_back(harness.covers.size());
        harness.covers.push_back({"z" + std::to_string(i), "", 1, 1, {}, {}});
    }
    harness.parts.push_back(other);
    const access::Costs costs(harness, 0);
    REQUIRE(costs.workshop().covers() == 3);
}

TEST_CASE("what has to come off is told in the order in which it comes off") {
    const harness::Harness& harness = test::small_chain();
    const access::Costs costs(harness, 0);
    const auto trim = find_cover(harness, "trim");
    const auto seat = find_cover(harness, "seat");
    const access::Site site = costs.look(find_part(harness, "T1"));
    REQUIRE(costs.to_take_off(site, 0) == std::vector<harness::Index>{seat, trim});
    REQUIRE(costs.to_take_off(site, costs.set_of({seat})) == std::vector<harness::Index>{trim});
    // 3 minutes to walk, seat 14 + 10, trim 14 + 10, 3 to look: figures of the file.
    REQUIRE(costs.workshop().reach(site, harness.start, 0) == Approx(3 + 24 + 24 + 3));
}
