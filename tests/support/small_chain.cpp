#include "support/small_chain.hpp"

#include "halfsplit/harness/read.hpp"

#include <stdexcept>

namespace halfsplit::test {

const harness::Harness& small_chain() {
    static const harness::Harness harness = [] {
        harness::ReadResult result =
            harness::read_harness_file(system_files(), HALFSPLIT_SOURCE_DIR "/tests/data/small_chain.json");
        if (!result.harness) throw std::runtime_error(to_text(result.findings.front()));
        return std::move(*result.harness);
    }();
    return harness;
}

}  // namespace halfsplit::test
