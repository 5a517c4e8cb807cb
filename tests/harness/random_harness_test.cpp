#include "support/random_harness.hpp"

#include "halfsplit/harness/read.hpp"
#include "halfsplit/harness/vehicle.hpp"

#include "support/catch.hpp"

#include <set>

using namespace halfsplit;
using test::RandomHarnessShape;
using Layout = RandomHarnessShape::Layout;

TEST_CASE("every random harness is sound, of the wanted size, and has one network with a socket", "[long]") {
    for (const Layout layout : {Layout::Chain, Layout::Backbone, Layout::Tee, Layout::Star, Layout::Ring}) {
        RandomHarnessShape shape;
        shape.layout = layout;
        for (std::uint64_t seed = 0; seed < 200; ++seed) {
            const std::string text = test::random_harness_json(seed, shape);
            const auto result = harness::read_harness(text, "random.json");
            INFO("seed " << seed << " layout " << static_cast<int>(layout) << '\n'
                         << to_text(result.findings));
            REQUIRE(result.findings.empty());
            REQUIRE(result.harness);
            CHECK(result.harness->points.size() >= 4);
            CHECK(result.harness->points.size() <= 40);
            CHECK(result.harness->networks.size() == 1);
            CHECK(harness::find_part(*result.harness, "DS") == 0);
        }
    }
}

TEST_CASE("a random harness is the same on every machine") {
    // splitmix64 from 1234567 gives 6457827717110365317 first (Vigna, "Further scramblings of Marsaglia's
    // xorshift generators", 2014: the published reference code).
    CHECK(test::Random(1234567).next() == 6457827717110365317ULL);
    CHECK(test::random_harness_json(7) == test::random_harness_json(7));
    CHECK(test::random_harness_json(7) != test::random_harness_json(8));
}

TEST_CASE("random harnesses have everything a harness can have") {
    std::set<std::string> met;
    for (std::uint64_t seed = 0; seed < 100; ++seed) {
        const auto result = harness::read_harness(test::random_harness_json(seed), "random.json");
        REQUIRE(result.harness);
        const harness::Harness& made = *result.harness;
        const auto present = harness::presence(made);
        for (harness::Index i = 0; i < made.parts.size(); ++i) {
            const harness::Part& part = made.parts[i];
            met.insert(std::string(word(part.kind)));
            if (present[i] == harness::Fitted::No) met.insert("absent " + std::string(word(part.kind)));
            if (present[i] == harness::Fitted::Unknown) met.insert("unknown " + std::string(word(part.kind)));
            for (const auto& attachment : part.attachments) met.insert(attachment.loop ? "loop" : "spur");
        }
        for (const harness::Cover& cover : made.covers) {
            if (!cover.under.empty()) met.insert("nested cover");
        }
        if (made.places.size() > 1) met.insert("several places");
    }
    for (const char* thing :
         {"module", "connector", "splice", "terminator", "bridge plug", "diagnostic socket", "run",
          "absent module", "absent connector", "absent bridge plug", "absent run", "unknown module",
          "unknown bridge plug", "loop", "spur", "nested cover", "several places"}) {
        CHECK(met.count(thing) == 1);
    }
}
