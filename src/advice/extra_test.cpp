#include "advice/extra_test.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/diagnosis/meter.hpp"

#include "advice/candidates.hpp"
#include "advice/spot.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace halfsplit::advice {

using diagnosis::Contact;
using diagnosis::Tips;
using harness::Harness;
using harness::Index;
using harness::none;

namespace {

// `none` stands for "nothing wrong".
Index part_of(const GroupMember& member) {
    return member.explanation->faults.empty() ? none : member.explanation->faults.front().part;
}

double entropy(const std::vector<double>& weights) {
    double total = 0;
    for (const double weight : weights) total += weight;
    double bits = 0;
    for (const double weight : weights) {
        if (weight > 0) bits -= weight / total * std::log2(weight / total);
    }
    return bits;
}

template <typename Key>
double entropy(const std::map<Key, double>& weights) {
    std::vector<double> values;
    for (const auto& [key, weight] : weights) values.push_back(weight);
    return entropy(values);
}

class Splitter {
  public:
    Splitter(diagnosis::Predictor& predictor, const access::Costs& costs,
             const std::vector<ExtraReading>& readings, const std::vector<GroupMember>& members)
        : predictor_(predictor), costs_(costs), readings_(readings), members_(members) {
        std::map<Index, double> by_part;
        for (const GroupMember& member : members) by_part[part_of(member)] += member.chance;
        std::vector<double> weights;
        for (const GroupMember& member : members) weights.push_back(member.chance);
        heaviest_first_ = heaviest_first(weights);
        parts_ = by_part.size();
        bits_of_part_ = entropy(by_part);
        for (std::size_t i = 0; i < readings.size(); ++i) of_apart_[readings[i].apart].push_back(i);
    }

    Splits run() {
        Splits result;
        double best_rate = 0;
        std::size_t cheapest = readings_.size();
        std::size_t sharpest = readings_.size();
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            // No later reading can tell more per minute than all there is to tell in these minutes.
            const double minutes = std::max(readings_[i].minutes, 0.01);
            if (cheapest < readings_.size() && bits_of_part_ / minutes <= best_rate) break;
            const std::vector<int> outcome = outcomes(i);
            if (!leaves_fewer_parts(outcome)) continue;
            if (cheapest == readings_.size()) cheapest = i;
            const double rate = bits(outcome) / minutes;
            if (rate > best_rate + 1e-12) {
                best_rate = rate;
                sharpest = i;
            }
        }
        if (cheapest < readings_.size()) result.cheapest = told(cheapest);
        if (sharpest < readings_.size() && sharpest != cheapest) result.sharpest = told(sharpest);
        return result;
    }

  private:
    // All readings with the same part taken apart are predicted in one go.
    const std::vector<std::vector<double>>& predicted(Index apart) {
        auto& rows = predicted_[apart];
        if (!rows.empty()) return rows;
        std::vector<Tips> tips;
        for (const std::size_t i : of_apart_[apart]) tips.push_back(readings_[i].tips);
        const diagnosis::Situation situation{apart == none ? electrics::Apart{} : electrics::Apart{apart},
                                             {}};
        for (const GroupMember& member : members_)
            rows.push_back(predictor_.ohms(*member.explanation, situation, tips));
        return rows;
    }

    std::vector<double> column(std::size_t reading) {
        const auto& same = of_apart_[readings_[reading].apart];
        const auto place = std::find(same.begin(), same.end(), reading) - same.begin();
        std::vector<double> result;
        for (const auto& row : predicted(readings_[reading].apart))
            result.push_back(row[static_cast<std::size_t>(place)]);
        return result;
    }

    std::vector<int> outcomes(std::size_t reading) {
        std::vector<OutcomeClass> classes;
        return classify(column(reading), heaviest_first_, classes);
    }

    bool leaves_fewer_parts(const std::vector<int>& outcome) const {
        std::map<int, std::set<Index>> parts;
        for (std::size_t i = 0; i < members_.size(); ++i) parts[outcome[i]].insert(part_of(members_[i]));
        return std::any_of(parts.begin(), parts.end(),
                           [&](const auto& entry) { return entry.second.size() < parts_; });
    }

    // Mutual information of part and outcome (Shannon 1948).
    double bits(const std::vector<int>& outcome) const {
        std::map<int, double> by_outcome;
        std::map<std::pair<Index, int>, double> together;
        for (std::size_t i = 0; i < members_.size(); ++i) {
            by_outcome[outcome[i]] += members_[i].chance;
            together[{part_of(members_[i]), outcome[i]}] += members_[i].chance;
        }
        return std::max(0.0, bits_of_part_ + entropy(by_outcome) - entropy(together));
    }

    ExtraTest told(std::size_t index) {
        const Harness& harness = predictor_.harness();
        const ExtraReading& reading = readings_[index];
        std::vector<OutcomeClass> classes;
        const std::vector<int> outcome = classify(column(index), heaviest_first_, classes);
        ExtraTest test{.red = name_of(harness, reading.tips.red),
                       .black = name_of(harness, reading.tips.black)};
        test.red_line = spot_of(harness, reading.tips.red).line;
        test.black_line = spot_of(harness, reading.tips.black).line;
        if (reading.apart != none) {
            test.unplug = harness.parts[reading.apart].id;
            test.unplug_name = harness.parts[reading.apart].name;
            test.unplug_kind = word(harness.parts[reading.apart].kind);
        }
        test.moves_clip = reading.moves_clip;
        test.minutes = reading.minutes;
        test.bits = bits(outcome);
        test.outcomes = split_outcomes(outcome, classes);
        test.cautions = cautions_of(reading);
        return test;
    }

    std::vector<SplitOutcome> split_outcomes(const std::vector<int>& outcome,
                                             const std::vector<OutcomeClass>& classes) const {
        const Harness& harness = predictor_.harness();
        double total = 0;
        std::map<int, std::pair<double, std::set<Index>>> by_outcome;
        for (std::size_t i = 0; i < members_.size(); ++i) {
            total += members_[i].chance;
            by_outcome[outcome[i]].first += members_[i].chance;
            by_outcome[outcome[i]].second.insert(part_of(members_[i]));
        }
        std::vector<SplitOutcome> result;
        for (const auto& [number, own] : by_outcome) {
            const OutcomeClass& shows = classes[static_cast<std::size_t>(number)];
            SplitOutcome view{in_words(shows), total > 0 ? own.first / total : 0, {}};
            for (const Index part : own.second) {
                if (part == none) view.sound = true;
                if (part != none) view.parts.push_back(harness.parts[part].id);
            }
            result.push_back(std::move(view));
        }
        std::stable_sort(result.begin(), result.end(),
                         [](const SplitOutcome& a, const SplitOutcome& b) { return a.chance > b.chance; });
        return result;
    }

    std::vector<std::string> cautions_of(const ExtraReading& reading) const {
        std::vector<access::Site> sites;
        if (reading.apart != none) sites.push_back(costs_.look(reading.apart));
        for (const Contact& contact : {reading.tips.red, reading.tips.black}) {
            if (contact.kind == Contact::Kind::Terminal) sites.push_back(costs_.probe(contact.terminal));
        }
        return cautions_at(predictor_.harness(), costs_, sites);
    }

    diagnosis::Predictor& predictor_;
    const access::Costs& costs_;
    const std::vector<ExtraReading>& readings_;
    const std::vector<GroupMember>& members_;
    std::vector<std::size_t> heaviest_first_;  // of the members
    std::size_t parts_ = 0;
    double bits_of_part_ = 0;
    std::map<Index, std::vector<std::size_t>> of_apart_;           // readings, by what is apart
    std::map<Index, std::vector<std::vector<double>>> predicted_;  // by what is apart: member, then reading
};

}  // namespace

Splits split(diagnosis::Predictor& predictor, const access::Costs& costs,
             const std::vector<ExtraReading>& readings, const std::vector<GroupMember>& members) {
    return Splitter(predictor, costs, readings, members).run();
}

}  // namespace halfsplit::advice
