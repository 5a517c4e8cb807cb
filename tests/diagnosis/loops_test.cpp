// Where a line runs in a ring, one open shows nowhere and two of one line do.
#include "diagnosis/loops.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"

using namespace halfsplit;

TEST_CASE("in a ring an open is quiet by itself, and two of one line take the line apart") {
    // W2 and W3 lie side by side between two splices; W1 is the only way to the terminator.
    const harness::Harness ring = test::harness_from("tests/data/networks/ring.json");
    diagnosis::Predictor predictor(ring, 0);
    const diagnosis::Loops loops(predictor.circuit(0).assembly);
    const auto fault = [&](const std::string& name) { return test::fault_named(ring, name); };
    CHECK(loops.quiet(fault("W2:open-h")));
    CHECK(loops.quiet(fault("W3:open-l")));
    CHECK_FALSE(loops.quiet(fault("W1:open-h")));
    CHECK_FALSE(loops.quiet(fault("W2:short")));
    CHECK(loops.part_together(fault("W2:open-h"), fault("W3:open-h")));
    CHECK_FALSE(loops.part_together(fault("W2:open-h"), fault("W3:open-l")));
}
