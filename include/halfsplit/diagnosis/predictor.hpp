// What a meter would show, for any explanation, anywhere on one network: the resistor network solved, never a
// table of special cases. One circuit and one factorisation for each variant (and one more for volts, bus
// awake or asleep); faults and parts taken apart are changes to it.
#pragma once

#include "halfsplit/diagnosis/explanation.hpp"
#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/diagnosis/reach.hpp"
#include "halfsplit/electrics/assembly.hpp"
#include "halfsplit/electrics/graph.hpp"
#include "halfsplit/electrics/operating_point.hpp"
#include "halfsplit/electrics/solver.hpp"
#include "halfsplit/harness/variants.hpp"

#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace halfsplit::diagnosis {

// What a lead touches.
struct Contact {
    enum class Kind : std::uint8_t { Terminal, Ground, Supply } kind = Kind::Terminal;
    harness::Index terminal = harness::none;
    bool operator==(const Contact&) const = default;
};
inline Contact at(harness::Index terminal) {
    return {Contact::Kind::Terminal, terminal};
}

struct Tips {
    Contact red, black;
    bool operator==(const Tips&) const = default;
};

struct PreparedCircuit {
    electrics::Assembly assembly;
    std::vector<std::size_t> terminators;  // edges
    electrics::Solver solver;
    electrics::Graph graph;
};

struct PoweredCircuit {
    electrics::Assembly assembly;
    electrics::OperatingPoint operating_point;
};

struct Catalogue;
class Ledger;
class Remembered;

class Predictor {
  public:
    // Keeps a reference to the harness.
    Predictor(const harness::Harness& harness, harness::Index network);
    ~Predictor();
    Predictor(const Predictor&) = delete;
    Predictor& operator=(const Predictor&) = delete;
    Predictor(Predictor&&) noexcept;
    Predictor& operator=(Predictor&&) = delete;

    const harness::Harness& harness() const { return harness_; }
    harness::Index network() const { return network_; }
    const std::vector<harness::Variant>& variants() const { return variants_; }

    // Built on first use and kept.
    const PreparedCircuit& circuit(std::size_t variant);

    // Every single fault of a variant. Built on first use and kept.
    const Catalogue& catalogue(std::size_t variant);

    // What beliefs leave behind for the ones after them. Grows with the readings and the explanations.
    Remembered& remembered() { return *remembered_; }
    Ledger& ledger() { return *ledger_; }

    // How far messages get, for who answers. Built on first use and kept.
    Reaches& reaches(std::size_t variant);

    // What an explanation does to the circuit of its variant as things stand: its faults, and what is apart.
    std::vector<electrics::Change> changes(const Explanation& explanation, const Situation& situation);

    // Ohms for each pair of tips; infinity is OL, NaN where a tip is not on the explanation's variant.
    std::vector<double> ohms(const Explanation& explanation, const Situation& situation,
                             const std::vector<Tips>& tips);

    // The same with the spread that comes of resistances known within limits only: terminators, transceivers,
    // and the ohms of the faults, of which the grid knows the nearest only (fault.hpp).
    std::vector<Predicted> figures(const Explanation& explanation, const Situation& situation,
                                   const std::vector<Tips>& tips);

    // The same for many explanations in one situation: result[e] for explanations[e]. What is apart is worked
    // out once, so that each explanation costs a few operations a reading.
    std::vector<std::vector<double>> ohms_of_each(const std::vector<const Explanation*>& explanations,
                                                  const Situation& situation, const std::vector<Tips>& tips);

    // Volts of each contact against ground, battery on, bus awake and recessive or asleep. Nothing where a
    // contact is not on the explanation's variant; electrics::floating where no transceiver, ground or
    // supply reaches it.
    std::vector<std::optional<double>> volts(const Explanation& explanation, const Situation& situation,
                                             const std::vector<Contact>& contacts, bool awake);

  private:
    // The faults of an explanation that are left, as changes.
    std::vector<electrics::Change> fault_changes(const Explanation& explanation, const Situation& situation);
    const PoweredCircuit& powered(std::size_t variant, bool awake);

    const harness::Harness& harness_;
    harness::Index network_;
    std::vector<harness::Variant> variants_;
    std::map<std::size_t, std::unique_ptr<PreparedCircuit>> circuits_;                 // by variant
    std::map<std::size_t, Reaches> reaches_;                                           // by variant
    std::map<std::pair<std::size_t, bool>, std::unique_ptr<PoweredCircuit>> powered_;  // by variant and awake
    std::map<std::size_t, std::unique_ptr<Catalogue>> catalogues_;                     // by variant
    std::unique_ptr<Remembered> remembered_;
    std::unique_ptr<Ledger> ledger_;
};

}  // namespace halfsplit::diagnosis
