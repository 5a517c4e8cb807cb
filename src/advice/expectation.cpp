#include "halfsplit/advice/expectation.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/base/finding.hpp"
#include "halfsplit/base/ranking.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/electrics/labels.hpp"
#include "halfsplit/electrics/netlist.hpp"

#include <fmt/format.h>

#include "advice/candidates.hpp"
#include "advice/readout.hpp"
#include "advice/spot.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace halfsplit::advice {

using diagnosis::at;
using diagnosis::Belief;
using diagnosis::Contact;
using diagnosis::Explanation;
using diagnosis::Fault;
using diagnosis::Predictor;
using diagnosis::Situation;
using diagnosis::Tips;
using harness::Harness;
using harness::Index;
using harness::none;

namespace {

// Of every place a hand has to go to: the tips and what is taken apart.
std::vector<std::string> cautions_of(const Predictor& predictor, const Tips& tips,
                                     const electrics::Apart& apart) {
    const access::Costs costs(predictor.harness(), predictor.network());
    std::vector<access::Site> sites;
    for (const Contact& contact : {tips.red, tips.black}) {
        if (contact.kind == Contact::Kind::Terminal) sites.push_back(costs.probe(contact.terminal));
    }
    for (const Index part : apart) sites.push_back(costs.look(part));
    return cautions_at(predictor.harness(), costs, sites);
}

void widen(FigureRange& range, double ohm, bool first) {
    range.low = first ? ohm : std::min(range.low, ohm);
    range.high = first ? ohm : std::max(range.high, ohm);
}

template <typename Items>
void likeliest_first(Items& items) {
    std::stable_sort(items.begin(), items.end(),
                     [](const auto& a, const auto& b) { return likelier(a.probability, b.probability); });
}

// What goes into one outcome.
class Gathering {
  public:
    Gathering(const Harness& harness, const OutcomeClass& shows, std::string in_words) : harness_(harness) {
        outcome_.shows = std::move(in_words);
        outcome_.range = shows.volts ? FigureRange{shows.low_volt, shows.high_volt}
                                     : FigureRange{shows.low_ohm, shows.high_ohm};
    }

    void add(const diagnosis::Faults& faults, double figure, double probability) {
        outcome_.chance += probability;
        if (faults.empty()) {
            outcome_.sound = true;
            outcome_.nothing_wrong += probability;
            return;
        }
        std::set<Index> parts;
        std::vector<std::string> names;
        std::vector<std::string> words;
        for (const Fault& fault : faults) {
            parts.insert(fault.part);
            names.push_back(diagnosis::name(harness_, fault));
            words.push_back(diagnosis::in_words(harness_, fault));
        }
        for (const Index part : parts) by_part_[part] += probability;
        const auto [entry, first] = faults_.try_emplace(join(names, " and "));
        entry->second.fault = entry->first;
        entry->second.in_words = join(words, " and ");
        entry->second.probability += probability;
        widen(entry->second.shows, figure, first);
    }

    ExpectedOutcome finish() {
        for (const auto& [part, probability] : by_part_)
            outcome_.parts.push_back({harness_.parts[part].id, harness_.parts[part].name, probability});
        for (auto& [name, fault] : faults_) outcome_.faults.push_back(std::move(fault));
        likeliest_first(outcome_.parts);
        likeliest_first(outcome_.faults);
        return std::move(outcome_);
    }

  private:
    const Harness& harness_;
    ExpectedOutcome outcome_;
    std::map<Index, double> by_part_;
    std::map<std::string, ExpectedFault> faults_;
};

}  // namespace

Expectation expect(Predictor& predictor, const Belief& belief, const Tips& tips,
                   const electrics::Apart& apart, electrics::Power power) {
    const Harness& harness = predictor.harness();
    Situation situation = belief.now;
    situation.apart = apart;
    Readout readout(predictor, power);
    Expectation result{
        .power = power, .red = spot_of(harness, tips.red), .black = spot_of(harness, tips.black)};
    result.apart = ids_of(harness, apart);
    result.cautions = cautions_of(predictor, tips, apart);
    for (std::size_t variant = 0; variant < predictor.variants().size(); ++variant) {
        widen(result.sound, readout.figure({.variant = variant}, situation, tips), variant == 0);
    }
    std::vector<double> shown;
    for (const Explanation& explanation : belief.explanations) {
        shown.push_back(readout.figure(explanation, situation, tips));
    }
    std::vector<OutcomeClass> classes;
    const std::vector<int> outcome = readout.outcomes(shown, heaviest_first(belief.probability), classes);
    std::vector<Gathering> gathered;
    for (const OutcomeClass& own : classes) gathered.emplace_back(harness, own, readout.in_words(own, tips));
    for (std::size_t i = 0; i < shown.size(); ++i) {
        gathered[static_cast<std::size_t>(outcome[i])].add(
            unmended(harness, belief.explanations[i], situation), shown[i], belief.probability[i]);
    }
    for (Gathering& own : gathered) {
        result.outcomes.push_back(own.finish());
        if (result.outcomes.back().chance <= 0) result.outcomes.pop_back();
    }
    std::stable_sort(
        result.outcomes.begin(), result.outcomes.end(),
        [](const ExpectedOutcome& a, const ExpectedOutcome& b) { return likelier(a.chance, b.chance); });
    return result;
}

namespace {

// Every figure of ohms under the name of the fault, where it is one alone.
std::vector<Explanation> severities(Predictor& predictor, std::size_t variant,
                                    const std::vector<Fault>& faults) {
    if (faults.size() != 1) return {{.variant = variant, .faults = faults}};
    const Harness& harness = predictor.harness();
    const std::string name = diagnosis::name(harness, faults.front());
    std::vector<Explanation> result;
    for (const Fault& fault : diagnosis::all_faults(harness, predictor.circuit(variant).assembly)) {
        if (fault.part == faults.front().part && diagnosis::name(harness, fault) == name)
            result.push_back({.variant = variant, .faults = {fault}});
    }
    return result;
}

}  // namespace

FaultExpectation expect_faults(Predictor& predictor, std::size_t variant, const std::vector<Fault>& faults,
                               const Tips& tips, const electrics::Apart& apart, electrics::Power power) {
    const Harness& harness = predictor.harness();
    const Situation situation{apart, {}};
    Readout readout(predictor, power);
    FaultExpectation result{
        .power = power, .red = spot_of(harness, tips.red), .black = spot_of(harness, tips.black)};
    result.apart = ids_of(harness, apart);
    result.cautions = cautions_of(predictor, tips, apart);
    result.variant = predictor.variants()[variant].in_words;
    result.sound = readout.figure({.variant = variant}, situation, tips);
    for (const Explanation& one : severities(predictor, variant, faults)) {
        const double shows = readout.figure(one, situation, tips);
        const double own = one.faults.size() == 1 ? one.faults.front().ohm : 0;
        result.readings.push_back({own, shows, readout.told_apart(shows, result.sound)});
    }
    return result;
}

PointTable expect_table(Predictor& predictor, std::size_t variant, const std::vector<Fault>& faults,
                        Index clip, const electrics::Apart& apart, electrics::Power power) {
    const Harness& harness = predictor.harness();
    const bool in_volts = power != electrics::Power::Off;
    const Contact ground{Contact::Kind::Ground, none};
    Readout readout(predictor, power);
    const auto& on_clip = harness.points[clip].terminal;
    PointTable table{.power = power,
                     .clip = point_name(harness, clip),
                     .single_line = harness.networks[predictor.network()].single_line,
                     .variant = predictor.variants()[variant].in_words,
                     .apart = ids_of(harness, apart)};
    std::vector<Tips> tips;
    for (Index point = 0; point < harness.points.size(); ++point) {
        if (harness.points[point].network != predictor.network()) continue;
        const auto& own = harness.points[point].terminal;
        tips.push_back({at(own[0]), in_volts ? ground : at(on_clip[0])});
        if (!table.single_line) {
            tips.push_back({at(own[1]), in_volts ? ground : at(on_clip[1])});
            tips.push_back({at(own[0]), at(own[1])});
        }
        table.rows.push_back(
            {point_name(harness, point), harness.parts[harness.terminals[own[0]].part].name});
    }
    const Situation situation{apart, {}};
    const auto sound = readout.figures({.variant = variant}, situation, tips);
    const auto shown = readout.figures({.variant = variant, .faults = faults}, situation, tips);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        PointRow& row = table.rows[i];
        if (table.single_line) {
            row.h = shown[i];
            row.h_told = readout.told_apart(shown[i], sound[i]);
            row.l = row.h_to_l = std::nan("");
            continue;
        }
        row.h = shown[3 * i];
        row.l = shown[3 * i + 1];
        row.h_to_l = shown[3 * i + 2];
        row.h_told = readout.told_apart(shown[3 * i], sound[3 * i]);
        row.l_told = readout.told_apart(shown[3 * i + 1], sound[3 * i + 1]);
        row.across_told = readout.told_apart(shown[3 * i + 2], sound[3 * i + 2]);
    }
    return table;
}

namespace {

electrics::Node node_of(const Contact& contact, const electrics::Assembly& assembly) {
    if (contact.kind == Contact::Kind::Ground) return assembly.ground;
    if (contact.kind == Contact::Kind::Supply) return assembly.supply;
    return assembly.node_of_terminal[contact.terminal];
}

// "DS:6 to ground: ohm_1 sound bus, ohm_2 W1:open-h"; in volts each figure is two, red and black.
std::string netlist_title(const Harness& harness, const std::vector<Explanation>& asked, const Tips& tips,
                          bool in_volts) {
    std::string title = fmt::format("{} to {}:", name_of(harness, tips.red), name_of(harness, tips.black));
    for (std::size_t i = 0; i < asked.size(); ++i) {
        const auto& faults = asked[i].faults;
        std::vector<std::string> names;
        for (const Fault& fault : faults) names.push_back(diagnosis::name(harness, fault));
        const std::string figure =
            in_volts ? fmt::format("volt_{0}_1 and volt_{0}_2", i + 1) : fmt::format("ohm_{}", i + 1);
        title += fmt::format("{} {} {}", i > 0 ? "," : "", figure,
                             names.empty() ? "sound bus" : join_words(names));
        if (faults.size() == 1 && faults.front().ohm > 0) title += " of " + format_ohm(faults.front().ohm);
    }
    return title;
}

}  // namespace

std::string expect_netlist(Predictor& predictor, std::size_t variant, const std::vector<Fault>& faults,
                           const Tips& tips, const electrics::Apart& apart, electrics::Power power) {
    const Harness& harness = predictor.harness();
    // Edges are numbered alike whatever the power.
    const electrics::Assembly assembly =
        electrics::assemble(harness, predictor.network(), predictor.variants()[variant].present, power);
    const electrics::Tips nodes{node_of(tips.red, assembly), node_of(tips.black, assembly)};
    if (nodes.red == none || nodes.black == none) {
        Finding finding;
        finding.id = "not-on-the-vehicle";
        finding.location.file = "--between";
        finding.message = "one of the two is at a part that this vehicle does not have";
        finding.next_step = "expect --table lists the points that it has";
        throw InputError(finding);
    }
    std::vector<Explanation> asked{{.variant = variant}};
    if (!faults.empty()) {
        const auto all = severities(predictor, variant, faults);
        asked.insert(asked.end(), all.begin(), all.end());
    }
    const bool in_volts = power != electrics::Power::Off;
    electrics::Netlist netlist(netlist_title(harness, asked, tips, in_volts));
    const electrics::Labels labels = electrics::labels(harness, assembly);
    for (const Explanation& one : asked) {
        const auto changes = predictor.changes(one, {apart, {}});
        if (in_volts)
            netlist.add_volts(assembly.circuit, changes, assembly.held, {nodes.red, nodes.black}, labels);
        else
            netlist.add_ohms(assembly.circuit, changes, nodes, labels);
    }
    return netlist.text();
}

}  // namespace halfsplit::advice
