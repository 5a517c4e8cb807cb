#include "halfsplit/harness/read.hpp"
#include "support/catch.hpp"
#include <fstream>
#include <sstream>
#include <iostream>
using namespace halfsplit;
TEST_CASE("scratch") {
    std::ifstream in(HALFSPLIT_SOURCE_DIR "/tests/data/small_chain.json");
    std::stringstream s; s << in.rdbuf();
    auto r = harness::read_harness(s.str(), "small_chain.json");
    std::cout << to_text(r.findings) << "\n";
    REQUIRE(r.harness);
    for (size_t i=0;i<r.harness->points.size();++i) std::cout << harness::point_name(*r.harness,i) << "\n";
}
