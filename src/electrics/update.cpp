#include "electrics/update.hpp"

#include <cmath>
#include <map>

namespace halfsplit::electrics {

Update::Update(const Factorised& base, const std::vector<Change>& changes, Core core) : base_(base) {
    if (changes.empty()) {
        component_ = base.components();
        return;
    }
    sort_out(changes);
    if (!joins_components_) prepare_core(core);
}

namespace {

// Which component hangs together with which by way of edges that are left in.
class Joined {
  public:
    // False when the two hung together already.
    bool join(std::size_t a, std::size_t b) {
        a = top(a);
        b = top(b);
        if (a != b) above_[a] = b;
        return a != b;
    }

  private:
    std::size_t top(std::size_t one) const {
        for (auto up = above_.find(one); up != above_.end(); up = above_.find(one)) one = up->second;
        return one;
    }
    std::map<std::size_t, std::size_t> above_;
};

}  // namespace

// Keeps the changes that can alter a reading between tips that still hang together. Of the opened edges
// between two parts that no longer do, one may stay in, as a bridge: it carries nothing between tips on one
// side of it.
void Update::sort_out(const std::vector<Change>& changes) {
    std::vector<std::size_t> opened;
    for (const Change& change : changes) {
        const Edge& edge = base_.circuit().edges[change.edge];
        if (is_present(change.ohm)) {
            if (change.ohm == edge.ohm) continue;
            effective_.push_back(change);
            if (base_.components()[edge.from] != base_.components()[edge.to]) joins_components_ = true;
        } else if (base_.conducts()[change.edge] != 0) {
            opened.push_back(change.edge);
        }
    }
    if (joins_components_) return;
    const bool parted = base_.cuts().part(opened);
    component_ = parted ? components_without(opened) : base_.components();
    Joined joined;
    for (const std::size_t e : opened) {
        const std::size_t from = component_[base_.circuit().edges[e].from];
        const std::size_t to = component_[base_.circuit().edges[e].to];
        if (from == to || !joined.join(from, to)) effective_.push_back({e, open_circuit});
    }
}

std::vector<std::size_t> Update::components_without(const std::vector<std::size_t>& opened) const {
    std::vector<char> conducts = base_.conducts();
    for (const Change& change : effective_) conducts[change.edge] = 1;
    for (const std::size_t edge : opened) conducts[edge] = 0;
    return base_.graph().components(conducts);
}

void Update::prepare_core(Core core) {
    if (effective_.empty()) return;
    const bool look_up = core != Core::Solved && base_.has_inverse();
    fill_core(look_up);
    if (look_up && core == Core::Careful && cancels()) fill_core(false);
    factor_.compute(core_);
}

// How the change of an edge enters the core.
Real Update::own_change(Eigen::Index i) const {
    return Real{1} / (conductance(item(effective_, i).ohm) - conductance(edge_of(i).ohm));
}

void Update::fill_core(bool look_up) {
    const auto count = static_cast<Eigen::Index>(effective_.size());
    core_.resize(count, count);
    for (Eigen::Index column = 0; column < count; ++column) {
        const Tips ends{edge_of(column).from, edge_of(column).to};
        const Vector potential = look_up ? Vector() : base_.potentials(ends);
        for (Eigen::Index row = 0; row < count; ++row) {
            const Edge& edge = edge_of(row);
            core_(row, column) = look_up ? base_.across(ends, edge.from, edge.to)
                                         : base_.across(potential, edge.from, edge.to);
        }
        core_(column, column) += own_change(column);
    }
}

// Whether five digits are lost: the opened edges leave only ways round of so many more ohms.
bool Update::cancels() const {
    Vector scale(core_.rows());
    for (Eigen::Index i = 0; i < scale.size(); ++i) scale[i] = 1 / std::sqrt(std::abs(own_change(i)));
    const Matrix scaled = scale.asDiagonal() * core_ * scale.asDiagonal();
    return Eigen::PartialPivLU<Matrix>(scaled).matrixLU().diagonal().cwiseAbs().minCoeff() < Real{1e-5};
}

}  // namespace halfsplit::electrics
