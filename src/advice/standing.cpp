#include "advice/standing.hpp"

#include "halfsplit/advice/evidence.hpp"

#include <vector>

namespace halfsplit::advice {

access::Standing standing_of(const harness::Harness& harness, harness::Index network,
                             const access::Costs& costs, const job::State& state) {
    std::vector<harness::Index> off;
    for (const std::string& id : state.covers_off) {
        const harness::Index cover = find_cover(harness, id);
        if (cover != harness::none) off.push_back(cover);
    }
    return {standing_place(harness, network, state), costs.set_of(off)};
}

}  // namespace halfsplit::advice
