#include "halfsplit/advice/expectation.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/base/finding.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/electrics/labels.hpp"
#include "halfsplit/electrics/netlist.hpp"

#include <fmt/format.h>

#include "advice/candidates.hpp"
#include "advice/spot.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace halfsplit::advice {

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

std::vector<std::string> ids_of(const Harness& harness, const electrics::Apart& parts) {
    std::vector<std::string> ids;
    for (const Index part : parts) ids.push_back(harness.parts[part].id);
    return ids;
}

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

void widen(OhmRange& range, double ohm, bool first) {
    range.low = first ? ohm : std::min(range.low, ohm);
    range.high = first ? ohm : std::max(range.high, ohm);
}

double as_shown(double ohm) {
    return std::isnan(ohm) || ohm < diagnosis::meter_limit_ohm ? ohm : electrics::open_circuit;
}

template <typename Items>
void likeliest_first(Items& items) {
    std::stable_sort(items.begin(), items.end(),
                     [](const auto& a, const auto& b) { return a.probability > b.probability; });
}

// What goes into one outcome.
class Gathering {
  public:
    Gathering(const Harness& harness, const OutcomeClass& shows) : harness_(harness) {
        outcome_.shows = in_words(shows);
        outcome_.ohm = {shows.low_ohm, shows.high_ohm};
    }

    void add(const std::vector<Fault>& faults, double ohm, double probability) {
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
        widen(entry->second.shows, ohm, first);
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
                   const electrics::Apart& apart) {
    const Harness& harness = predictor.harness();
    Situation situation = belief.now;
    situation.apart = apart;
    Expectation result{.red = spot_of(harness, tips.red), .black = spot_of(harness, tips.black)};
    result.apart = ids_of(harness, apart);
    result.cautions = cautions_of(predictor, tips, apart);
    for (std::size_t variant = 0; variant < predictor.variants().size(); ++variant) {
        const double ohm = as_shown(predictor.ohms({.variant = variant}, situation, {tips}).front());
        widen(result.sound, ohm, variant == 0);
    }
    std::vector<double> shown;
    for (const Explanation& explanation : belief.explanations) {
        shown.push_back(as_shown(predictor.ohms(explanation, situation, {tips}).front()));
    }
    std::vector<OutcomeClass> classes;
    const std::vector<int> outcome = classify(shown, heaviest_first(belief.probability), classes);
    std::vector<Gathering> gathered;
    for (const OutcomeClass& own : classes) gathered.emplace_back(harness, own);
    for (std::size_t i = 0; i < shown.size(); ++i) {
        gathered[static_cast<std::size_t>(outcome[i])].add(
            unmended(harness, belief.explanations[i], situation), shown[i], belief.probability[i]);
    }
    for (Gathering& own : gathered) {
        result.outcomes.push_back(own.finish());
        if (result.outcomes.back().chance <= 0) result.outcomes.pop_back();
    }
    std::stable_sort(result.outcomes.begin(), result.outcomes.end(),
                     [](const ExpectedOutcome& a, const ExpectedOutcome& b) { return a.chance > b.chance; });
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

bool told_apart(double ohm, double sound) {
    if (std::isnan(ohm) || std::isnan(sound)) return std::isnan(ohm) != std::isnan(sound);
    return diagnosis::distinguishable(ohm, sound);
}

}  // namespace

FaultExpectation expect_faults(Predictor& predictor, std::size_t variant, const std::vector<Fault>& faults,
                               const Tips& tips, const electrics::Apart& apart) {
    const Harness& harness = predictor.harness();
    const Situation situation{apart, {}};
    FaultExpectation result{.red = spot_of(harness, tips.red), .black = spot_of(harness, tips.black)};
    result.apart = ids_of(harness, apart);
    result.cautions = cautions_of(predictor, tips, apart);
    result.variant = predictor.variants()[variant].in_words;
    result.sound = as_shown(predictor.ohms({.variant = variant}, situation, {tips}).front());
    for (const Explanation& one : severities(predictor, variant, faults)) {
        const double ohm = as_shown(predictor.ohms(one, situation, {tips}).front());
        const double own = one.faults.size() == 1 ? one.faults.front().ohm : 0;
        result.readings.push_back({own, ohm, told_apart(ohm, result.sound)});
    }
    return result;
}

PointTable expect_table(Predictor& predictor, std::size_t variant, const std::vector<Fault>& faults,
                        Index clip, const electrics::Apart& apart) {
    const Harness& harness = predictor.harness();
    const auto at = [](Index terminal) { return Contact{Contact::Kind::Terminal, terminal}; };
    const auto& on_clip = harness.points[clip].terminal;
    PointTable table{.clip = point_name(harness, clip),
                     .variant = predictor.variants()[variant].in_words,
                     .apart = ids_of(harness, apart)};
    std::vector<Tips> tips;
    for (Index point = 0; point < harness.points.size(); ++point) {
        if (harness.points[point].network != predictor.network()) continue;
        const auto& own = harness.points[point].terminal;
        tips.push_back({at(own[0]), at(on_clip[0])});
        tips.push_back({at(own[1]), at(on_clip[1])});
        tips.push_back({at(own[0]), at(own[1])});
        table.rows.push_back(
            {point_name(harness, point), harness.parts[harness.terminals[own[0]].part].name});
    }
    const Situation situation{apart, {}};
    const auto sound = predictor.ohms({.variant = variant}, situation, tips);
    const auto shown = predictor.ohms({.variant = variant, .faults = faults}, situation, tips);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        PointRow& row = table.rows[i];
        row.h_to_clip = as_shown(shown[3 * i]);
        row.l_to_clip = as_shown(shown[3 * i + 1]);
        row.h_to_l = as_shown(shown[3 * i + 2]);
        row.h_told = told_apart(shown[3 * i], sound[3 * i]);
        row.l_told = told_apart(shown[3 * i + 1], sound[3 * i + 1]);
        row.across_told = told_apart(shown[3 * i + 2], sound[3 * i + 2]);
    }
    return table;
}

namespace {

electrics::Node node_of(const Contact& contact, const electrics::Assembly& assembly) {
    if (contact.kind == Contact::Kind::Ground) return assembly.ground;
    if (contact.kind == Contact::Kind::Supply) return assembly.supply;
    return assembly.node_of_terminal[contact.terminal];
}

}  // namespace

std::string expect_netlist(Predictor& predictor, std::size_t variant, const std::vector<Fault>& faults,
                           const Tips& tips, const electrics::Apart& apart) {
    const Harness& harness = predictor.harness();
    const electrics::Assembly& assembly = predictor.circuit(variant).assembly;
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
    std::string title =
        fmt::format("{} to {}: ohm_1 sound bus", name_of(harness, tips.red), name_of(harness, tips.black));
    if (!faults.empty()) {
        for (const Explanation& one : severities(predictor, variant, faults)) {
            asked.push_back(one);
            std::vector<std::string> names;
            for (const Fault& fault : one.faults) names.push_back(diagnosis::name(harness, fault));
            title += fmt::format(", ohm_{} {}", asked.size(), join_words(names));
            if (one.faults.size() == 1 && one.faults.front().ohm > 0)
                title += " of " + format_ohm(one.faults.front().ohm);
        }
    }
    electrics::Netlist netlist(title);
    const electrics::Labels labels = electrics::labels(harness, assembly);
    for (const Explanation& one : asked)
        netlist.add_ohms(assembly.circuit, predictor.changes(one, {apart, {}}), nodes, labels);
    return netlist.text();
}

}  // namespace halfsplit::advice
