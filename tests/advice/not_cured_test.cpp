#include "advice/further.hpp"
#include "support/catch.hpp"
#include "support/small_chain.hpp"

namespace halfsplit::advice {

namespace {

// Two parts behind a cover each at one place, and no readings: the likelier is looked at first.
Posed two_parts() {
    Posed posed;
    posed.problem.workshop = access::Workshop({{1, 1, 0}, {2, 2, 0}}, 1, {0});
    posed.problem.hypotheses = {{0.75, 0}, {0.25, 1}};
    posed.problem.bare = {{0, 1, 10}, {0, 2, 20}};
    posed.part_of_element = {0, 1};
    return posed;
}

}  // namespace

TEST_CASE("What a further fault takes is the mean over the finds, from where each leaves the workshop") {
    const NotCured found = not_cured(test::small_chain(), two_parts());
    // After part 0: cover 1 and the look. After part 1, which is looked at second: both covers are off.
    CHECK(found.further_minutes == Approx(0.75 * (4 + 20) + 0.25 * 10));
    CHECK(found.repair_fails == test::small_chain().assumptions.repair_fails);
    CHECK(found.second_fault == test::small_chain().assumptions.second_fault);
}

TEST_CASE("Where nothing else can be wrong no further fault is looked for") {
    Posed alone = two_parts();
    alone.part_of_element[1] = harness::none;
    CHECK(not_cured(test::small_chain(), alone).further_minutes == 0);
}

}  // namespace halfsplit::advice
