#include "halfsplit/electrics/setting.hpp"

#include "electrics/cuts.hpp"
#include "electrics/factorised.hpp"
#include "electrics/update.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace halfsplit::electrics {

namespace {

// More edges than this at once go the general way.
constexpr int most_edges = 8;
using SmallCore = Eigen::Matrix<Real, Eigen::Dynamic, Eigen::Dynamic, 0, most_edges, most_edges>;
using Few = Eigen::Matrix<Real, Eigen::Dynamic, 1, 0, most_edges, 1>;

}  // namespace

struct Setting::Implementation {
    // What every reading is, with the standing changes alone.
    struct Standing {
        Real ohm = 0;
        bool connected = false;
        Vector
            across;  // volt across each standing change for one ampere between the tips, before the changes
        Vector weights;    // core of the standing changes, inverted, times `across`
        Vector potential;  // of all nodes, before the changes; only where no inverse is kept
    };

    const Solver& solver;
    const Factorised& base;
    std::vector<Change> standing;
    std::vector<Tips> tips;
    Update update;
    std::vector<char> conducts;
    std::optional<Cuts> own_cuts;
    std::vector<Standing> readings;  // by tips

    Implementation(const Solver& of, std::vector<Change> changes, std::vector<Tips> asked)
        : solver(of),
          base(of.factorised()),
          standing(std::move(changes)),
          tips(std::move(asked)),
          update(base, standing, Core::Careful) {
        if (update.joins_components()) return;
        conducts = base.conducts();
        for (const Change& change : standing) conducts[change.edge] = is_present(change.ohm) ? 1 : 0;
        if (conducts != base.conducts()) own_cuts.emplace(base.circuit(), base.graph(), conducts);
        readings.reserve(tips.size());
        for (const Tips& pair : tips) readings.push_back(reading(pair));
    }

    const Cuts& cuts() const { return own_cuts ? *own_cuts : base.cuts(); }
    const Edge& edge(std::size_t index) const { return base.circuit().edges[index]; }

    Standing reading(Tips pair) const {
        Standing result;
        if (!base.has_inverse()) result.potential = base.potentials(pair);
        result.connected = update.connected(pair.red, pair.black);
        result.across = across_standing(pair, result.potential);
        result.weights = update.solve(result.across);
        result.ohm =
            between(pair, result.potential, pair.red, pair.black) - result.across.dot(result.weights);
        return result;
    }

    // Before any change: volt from `from` to `to` for one ampere between the tips.
    Real between(Tips pair, const Vector& potential, Node from, Node to) const {
        return base.has_inverse() ? base.across(pair, from, to) : base.across(potential, from, to);
    }

    Vector across_standing(Tips pair, const Vector& potential) const {
        const auto& changes = update.effective();
        Vector result(static_cast<Eigen::Index>(changes.size()));
        for (std::size_t i = 0; i < changes.size(); ++i) {
            const Edge& own = edge(changes[i].edge);
            result[static_cast<Eigen::Index>(i)] = between(pair, potential, own.from, own.to);
        }
        return result;
    }

    // What counts on top of the standing changes. An opened bridge parts tips on either side of it and
    // changes nothing else.
    struct OnTop {
        std::vector<Change> changes;
        std::vector<std::size_t> bridges;
    };

    // Nothing where only the general way will do.
    std::optional<OnTop> on_top(const std::vector<Change>& changes) const {
        if (update.joins_components()) return std::nullopt;
        OnTop result;
        std::vector<std::size_t> opened;
        bool closed = false;
        for (const Change& change : changes) {
            const auto same = std::find_if(standing.begin(), standing.end(),
                                           [&](const Change& one) { return one.edge == change.edge; });
            if (same != standing.end()) {
                if (change.ohm > same->ohm) return std::nullopt;
                continue;
            }
            const Edge& own = edge(change.edge);
            if (is_present(change.ohm)) {
                if (change.ohm == own.ohm) continue;
                if (!update.connected(own.from, own.to)) return std::nullopt;
                closed = closed || conducts[change.edge] == 0;
            } else {
                if (conducts[change.edge] == 0) continue;
                if (cuts().is_bridge(change.edge)) {
                    result.bridges.push_back(change.edge);
                    continue;
                }
                opened.push_back(change.edge);
            }
            result.changes.push_back(change);
        }
        const bool bridge_closed = closed && !result.bridges.empty();
        if (result.changes.size() > most_edges || bridge_closed || cuts().part(opened)) return std::nullopt;
        return result;
    }

    bool connected(std::size_t reading, const std::vector<std::size_t>& opened_bridges) const {
        return readings[reading].connected &&
               std::none_of(opened_bridges.begin(), opened_bridges.end(), [&](std::size_t bridge) {
                   return cuts().separates(bridge, tips[reading].red, tips[reading].black);
               });
    }

    // An edge that changes on top of the standing ones.
    struct Added {
        const Edge& edge;
        Vector potential;  // for one ampere along it; only where no inverse is kept
        Vector across;     // the standing changes, for one ampere along it
    };

    Added added(const Change& change) const {
        const Edge& own = edge(change.edge);
        const Tips ends{own.from, own.to};
        Vector potential = base.has_inverse() ? Vector() : base.potentials(ends);
        Vector across = across_standing(ends, potential);
        return {own, std::move(potential), std::move(across)};
    }

    SmallCore core_of(const std::vector<Added>& edges, const std::vector<Change>& changes) const {
        const auto count = static_cast<Eigen::Index>(edges.size());
        SmallCore core(count, count);
        for (Eigen::Index column = 0; column < count; ++column) {
            const Added& one = item(edges, column);
            const Vector weights = update.solve(one.across);
            for (Eigen::Index row = 0; row < count; ++row) {
                const Edge& other = item(edges, row).edge;
                core(row, column) =
                    between({one.edge.from, one.edge.to}, one.potential, other.from, other.to) -
                    item(edges, row).across.dot(weights);
            }
            core(column, column) +=
                Real{1} / (conductance(item(changes, column).ohm) - conductance(one.edge.ohm));
        }
        return core;
    }

    std::vector<double> resistances(const OnTop& on_top) const {
        const std::vector<Change>& changes = on_top.changes;
        std::vector<Added> edges;
        edges.reserve(changes.size());
        for (const Change& change : changes) edges.push_back(added(change));
        const auto count = static_cast<Eigen::Index>(edges.size());
        const SmallCore core = core_of(edges, changes);
        Eigen::PartialPivLU<SmallCore> factor;
        if (count > 1) factor.compute(core);
        std::vector<double> result;
        result.reserve(tips.size());
        Few across(count);
        for (std::size_t t = 0; t < tips.size(); ++t) {
            const Standing& own = readings[t];
            if (!connected(t, on_top.bridges)) {
                result.push_back(open_circuit);
                continue;
            }
            if (tips[t].red == tips[t].black) {
                result.push_back(0);
                continue;
            }
            for (Eigen::Index i = 0; i < count; ++i) {
                const Added& one = item(edges, i);
                across[i] =
                    between(tips[t], own.potential, one.edge.from, one.edge.to) - own.weights.dot(one.across);
            }
            Real ohm = own.ohm;
            if (count == 1) ohm -= across[0] * across[0] / core(0, 0);
            if (count > 1) ohm -= across.dot(factor.solve(across));
            result.push_back(static_cast<double>(ohm));
        }
        return result;
    }
};

void merge(std::vector<Change>& all, const std::vector<Change>& more) {
    for (const Change& change : more) {
        const auto same = std::find_if(all.begin(), all.end(),
                                       [&](const Change& other) { return other.edge == change.edge; });
        if (same == all.end())
            all.push_back(change);
        else
            same->ohm = std::max(same->ohm, change.ohm);
    }
}

Setting::Setting(const Solver& solver, std::vector<Change> standing, std::vector<Tips> tips)
    : implementation_(std::make_unique<Implementation>(solver, std::move(standing), std::move(tips))) {}
Setting::~Setting() = default;
Setting::Setting(Setting&&) noexcept = default;

std::vector<double> Setting::resistances(const std::vector<Change>& changes) const {
    const Implementation& own = *implementation_;
    if (const auto on_top = own.on_top(changes)) return own.resistances(*on_top);
    std::vector<Change> all = own.standing;
    merge(all, changes);
    return own.solver.resistances(own.tips, all);
}

}  // namespace halfsplit::electrics
