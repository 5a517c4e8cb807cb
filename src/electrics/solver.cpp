#include "halfsplit/electrics/solver.hpp"

#include "electrics/factorised.hpp"
#include "electrics/update.hpp"

#include <algorithm>
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

// One question put to a circuit with changes in it: one ampere between the tips.
class Question {
  public:
    Question(const Factorised& base, const Update& update, Tips tips)
        : base_(base), update_(update), tips_(tips) {
        if (!base.has_inverse()) potential_ = base.potentials(tips);
    }

    bool leads_through() const {
        return tips_.red != tips_.black && update_.connected(tips_.red, tips_.black);
    }

    // Volts between two nodes, before the changes.
    Real across(Tips ends) const {
        return base_.has_inverse() ? base_.across(tips_, ends.red, ends.black)
                                   : base_.across(potential_, ends.red, ends.black);
    }

    // The same for each changed edge.
    Vector across_changes() const {
        Vector result(static_cast<Eigen::Index>(update_.effective().size()));
        for (std::size_t i = 0; i < update_.effective().size(); ++i) {
            const Edge& edge = base_.circuit().edges[update_.effective()[i].edge];
            result[static_cast<Eigen::Index>(i)] = across({edge.from, edge.to});
        }
        return result;
    }

    double ohm() const {
        if (tips_.red == tips_.black) return 0;
        if (!leads_through()) return open_circuit;
        const Vector changes = across_changes();
        return static_cast<double>(across(tips_) - changes.dot(update_.solve(changes)));
    }

  private:
    const Factorised& base_;
    const Update& update_;
    Tips tips_;
    Vector potential_;  // where no inverse is kept
};

double ohm_after(const Circuit& circuit, const std::vector<Change>& changes, std::size_t edge) {
    const auto change =
        std::find_if(changes.begin(), changes.end(), [&](const Change& one) { return one.edge == edge; });
    return change != changes.end() ? change->ohm : circuit.edges[edge].ohm;
}

}  // namespace

std::vector<double> Solver::resistances(const std::vector<Tips>& tips,
                                        const std::vector<Change>& changes) const {
    const Update update(*factorised_, changes, Core::Careful);
    if (update.joins_components()) return Solver(changed(circuit(), changes)).resistances(tips, {});
    std::vector<double> result;
    result.reserve(tips.size());
    for (const Tips& pair : tips) result.push_back(Question(*factorised_, update, pair).ohm());
    return result;
}

namespace {

// An edge whose part in the ohms is asked for, after the changes.
struct Portioned {
    Tips ends;
    double ohm = 0;
    Vector across_changes;  // for one ampere along it
};

Portions portions_of(const Question& question, const Update& update, const std::vector<Portioned>& edges) {
    Portions result{question.ohm(), std::vector<double>(edges.size(), 0)};
    if (!question.leads_through()) return result;
    const Vector weights = update.solve(question.across_changes());
    for (std::size_t i = 0; i < edges.size(); ++i) {
        if (!is_present(edges[i].ohm)) continue;
        const auto volt =
            static_cast<double>(question.across(edges[i].ends) - edges[i].across_changes.dot(weights));
        result.of[i] = volt * volt / edges[i].ohm;
    }
    return result;
}

}  // namespace

std::vector<Portions> Solver::portions(const std::vector<Tips>& tips, const std::vector<Change>& changes,
                                       const std::vector<std::size_t>& edges) const {
    const Update update(*factorised_, changes, Core::LookedUp);
    if (update.joins_components()) return Solver(changed(circuit(), changes)).portions(tips, {}, edges);
    std::vector<Portioned> portioned;
    for (const std::size_t edge : edges) {
        const Tips ends{circuit().edges[edge].from, circuit().edges[edge].to};
        portioned.push_back({ends, ohm_after(circuit(), changes, edge),
                             Question(*factorised_, update, ends).across_changes()});
    }
    std::vector<Portions> result;
    result.reserve(tips.size());
    for (const Tips& pair : tips)
        result.push_back(portions_of(Question(*factorised_, update, pair), update, portioned));
    return result;
}

}  // namespace halfsplit::electrics
