#include "halfsplit/electrics/solver.hpp"

#include "electrics/factorised.hpp"
#include "electrics/update.hpp"

#include <utility>

namespace halfsplit::electrics {

Solver::Solver(Circuit circuit) : factorised_(std::make_unique<Factorised>(std::move(circuit))) {}
Solver::~Solver() = default;
Solver::Solver(Solver&&) noexcept = default;
Solver& Solver::operator=(Solver&&) noexcept = default;

const Circuit& Solver::circuit() const {
    return factorised_->circuit();
}

double Solver::resistance(Tips tips) const {
    return resistance(tips, {});
}

double Solver::resistance(Tips tips, const std::vector<Change>& changes) const {
    return resistances({tips}, changes).front();
}

namespace {

double resistance_of(const Factorised& base, const Update& update, Tips tips) {
    if (tips.red == tips.black) return 0;
    if (!update.connected(tips.red, tips.black)) return open_circuit;
    // Before the changes and for one ampere: the voltage across the tips, and across each changed edge.
    const Vector potential = base.has_inverse() ? Vector() : base.potentials(tips);
    const auto across = [&](Node from, Node to) {
        return base.has_inverse() ? base.across(tips, from, to) : base.across(potential, from, to);
    };
    const auto across_change = [&](std::size_t which) {
        const Edge& edge = base.circuit().edges[update.effective()[which].edge];
        return across(edge.from, edge.to);
    };
    return static_cast<double>(across(tips.red, tips.black) -
                               update.correction(across_change, across_change));
}

}  // namespace

std::vector<double> Solver::resistances(const std::vector<Tips>& tips,
                                        const std::vector<Change>& changes) const {
    const Update update(*factorised_, changes, Core::FromInverse);
    if (update.joins_components()) {
        return Solver(changed(circuit(), changes)).resistances(tips, {});
    }
    std::vector<double> result;
    result.reserve(tips.size());
    for (const Tips& pair : tips) result.push_back(resistance_of(*factorised_, update, pair));
    return result;
}

}  // namespace halfsplit::electrics
