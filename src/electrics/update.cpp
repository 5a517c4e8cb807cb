#include "electrics/update.hpp"

namespace halfsplit::electrics {

Update::Update(const Factorised& base, const std::vector<Change>& changes, Core core) : base_(base) {
    if (changes.empty()) {
        component_ = base.components();
        return;
    }
    sort_out(changes);
    if (!joins_components_) prepare_core(core);
}

// Keeps the changes that can alter a reading between tips that still hang together.
void Update::sort_out(const std::vector<Change>& changes) {
    std::vector<char> conducts = base_.conducts();
    for (const Change& change : changes) {
        const Edge& edge = base_.circuit().edges[change.edge];
        if (!is_present(change.ohm) || change.ohm == edge.ohm) continue;
        conducts[change.edge] = 1;
        effective_.push_back(change);
        if (base_.components()[edge.from] != base_.components()[edge.to]) joins_components_ = true;
    }
    for (const Change& change : changes) {
        if (is_present(change.ohm) || conducts[change.edge] == 0) continue;
        conducts[change.edge] = 0;
        const Edge& edge = base_.circuit().edges[change.edge];
        // A bridge carries nothing between tips on one side of it: leaving it in changes no reading.
        if (base_.graph().connected(edge.from, edge.to, conducts)) effective_.push_back(change);
    }
    component_ = base_.graph().components(conducts);
}

void Update::prepare_core(Core core) {
    const bool look_up = core == Core::FromInverse && base_.has_inverse();
    const auto count = static_cast<Eigen::Index>(effective_.size());
    core_.resize(count, count);
    for (Eigen::Index column = 0; column < count; ++column) {
        const Tips ends{edge_of(column).from, edge_of(column).to};
        const Vector potential = look_up ? Vector() : base_.solved_potentials(ends);
        for (Eigen::Index row = 0; row < count; ++row) {
            const Edge& edge = edge_of(row);
            core_(row, column) = look_up ? base_.across(ends, edge.from, edge.to)
                                         : base_.across(potential, edge.from, edge.to);
        }
        core_(column, column) +=
            Real{1} / (conductance(effective_[column].ohm) - conductance(edge_of(column).ohm));
    }
    if (count > 1) factor_.compute(core_);
}

}  // namespace halfsplit::electrics
