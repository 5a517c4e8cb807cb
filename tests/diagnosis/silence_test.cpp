#include "halfsplit/diagnosis/silence.hpp"

#include "support/catch.hpp"
#include "support/harnesses.hpp"
#include "support/small_chain.hpp"

namespace halfsplit::diagnosis {

namespace {

using harness::Index;
using test::fault_named;
using test::small_chain;

Index part(const char* id) {
    return find_part(small_chain(), id);
}

// GW - S1 - X1 - M1 - X2 - BP1, the socket at S1.
std::vector<Index> answering(const std::vector<Fault>& faults, const char* unplugged = "") {
    Predictor predictor(small_chain(), 0);
    Situation situation;
    if (*unplugged != 0) situation.apart = {part(unplugged)};
    return likely_to_answer({.faults = faults}, situation, predictor);
}

const std::vector<Index> both{std::min(part("GW"), part("M1")), std::max(part("GW"), part("M1"))};

}  // namespace

TEST_CASE("a sound bus answers, and a short silences it") {
    CHECK(answering({}) == both);
    for (const char* name : {"W6:short", "X2:ground-h", "W1:supply-l"}) {
        INFO(name);
        CHECK(answering({fault_named(small_chain(), name)}).empty());
    }
}

TEST_CASE("a module behind an open line, or unplugged, does not answer") {
    CHECK(answering({fault_named(small_chain(), "X1:receded-h@4", 0)}) == std::vector<Index>{part("GW")});
    CHECK(answering({}, "M1") == std::vector<Index>{part("GW")});
}

TEST_CASE("with the short unplugged from the socket the rest answers again") {
    const Fault beyond = fault_named(small_chain(), "W6:short");
    CHECK(answering({beyond}, "X1") == std::vector<Index>{part("GW")});
    CHECK(answering({beyond}, "X2") == both);
    CHECK(answering({fault_named(small_chain(), "W1:short")}, "X1").empty());
    CHECK(answering({fault_named(small_chain(), "W6:ground-l")}, "X2") == both);
}

TEST_CASE("who answers with a part unplugged says on which side of it the short is") {
    Predictor predictor(small_chain(), 0);
    const Explanation beyond{.faults = {fault_named(small_chain(), "W6:short")}};
    const Explanation before{.faults = {fault_named(small_chain(), "W1:short")}};
    const Scan gateway{.answering = {part("GW")}, .silent = {part("M1")}};
    const Scan nobody{.answering = {}, .silent = both};
    const Situation unplugged{.apart = {part("X1")}};
    CHECK(likelihood(gateway, beyond, unplugged, predictor) >
          5 * likelihood(gateway, before, unplugged, predictor));
    CHECK(likelihood(nobody, before, unplugged, predictor) >
          5 * likelihood(nobody, beyond, unplugged, predictor));
    CHECK(likelihood(nobody, before, {}, predictor) ==
          Approx(likelihood(nobody, beyond, {}, predictor)).epsilon(1e-9));
}

}  // namespace halfsplit::diagnosis
