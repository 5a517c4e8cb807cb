#include "halfsplit/electrics/circuit.hpp"

#include <cmath>

namespace halfsplit::electrics {

bool is_present(double ohm) {
    return std::isfinite(ohm);
}

Circuit changed(const Circuit& circuit, const std::vector<Change>& changes) {
    Circuit result = circuit;
    for (const Change& change : changes) result.edges.at(change.edge).ohm = change.ohm;
    return result;
}

}  // namespace halfsplit::electrics
