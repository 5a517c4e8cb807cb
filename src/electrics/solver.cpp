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

// One question put to a circuit with changes in it.
class Question {
  public:
    Question(const Factorised& base, const Update& update, Tips tips)
        : base_(base), update_(update), tips_(tips) {
        if (!base.has_inverse()) potential_ = base.potentials(tips);
    }

    double ohm() const {
        const auto across_change = [this](std::size_t which) { return across(changed_edge(which)); };
        return static_cast<double>(across({tips_.red, tips_.black}) -
                                   update_.correction(across_change, across_change));
    }

    // Volts across an edge for one ampere between the tips, all changes made.
    Real volt(const Question& of_edge, const Edge& edge) const {
        return across({edge.from, edge.to}) -
               update_.correction([&](std::size_t which) { return of_edge.across(changed_edge(which)); },
                                  [&](std::size_t which) { return across(changed_edge(which)); });
    }

  private:
    Tips changed_edge(std::size_t which) const {
        const Edge& edge = base_.circuit().edges[update_.effective()[which].edge];
        return {edge.from, edge.to};
    }
    // Before the changes.
    Real across(Tips ends) const {
        return base_.has_inverse() ? base_.across(tips_, ends.red, ends.black)
                                   : base_.across(potential_, ends.red, ends.black);
    }

    const Factorised& base_;
    const Update& update_;
    Tips tips_;
    Vector potential_;  // where no inverse is kept
};

bool leads_through(const Update& update, Tips tips) {
    return tips.red != tips.black && update.connected(tips.red, tips.black);
}

double resistance_of(const Factorised& base, const Update& update, Tips tips) {
    if (tips.red == tips.black) return 0;
    return update.connected(tips.red, tips.black) ? Question(base, update, tips).ohm() : open_circuit;
}

double ohm_after(const Circuit& circuit, const std::vector<Change>& changes, std::size_t edge) {
    const auto change =
        std::find_if(changes.begin(), changes.end(), [&](const Change& one) { return one.edge == edge; });
    return change != changes.end() ? change->ohm : circuit.edges[edge].ohm;
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

std::vector<Portions> Solver::portions(const std::vector<Tips>& tips, const std::vector<Change>& changes,
                                       const std::vector<std::size_t>& edges) const {
    const Update update(*factorised_, changes, Core::FromInverse);
    if (update.joins_components()) {
        return Solver(changed(circuit(), changes)).portions(tips, {}, edges);
    }
    std::vector<Question> of_edges;
    for (const std::size_t edge : edges) {
        const Edge& ends = circuit().edges[edge];
        of_edges.emplace_back(*factorised_, update, Tips{ends.from, ends.to});
    }
    std::vector<Portions> result;
    result.reserve(tips.size());
    for (const Tips& pair : tips) {
        Portions one{resistance_of(*factorised_, update, pair), std::vector<double>(edges.size(), 0)};
        if (leads_through(update, pair)) {
            const Question question(*factorised_, update, pair);
            for (std::size_t i = 0; i < edges.size(); ++i) {
                const double ohm = ohm_after(circuit(), changes, edges[i]);
                if (!is_present(ohm)) continue;
                const auto volt = static_cast<double>(question.volt(of_edges[i], circuit().edges[edges[i]]));
                one.of[i] = volt * volt / ohm;
            }
        }
        result.push_back(std::move(one));
    }
    return result;
}

}  // namespace halfsplit::electrics
