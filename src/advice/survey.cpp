#include "halfsplit/advice/survey.hpp"

#include "halfsplit/access/costs.hpp"
#include "halfsplit/base/ranking.hpp"
#include "halfsplit/plan/one_step.hpp"

#include "advice/aimed_plan.hpp"
#include "advice/arrangement.hpp"
#include "advice/candidates.hpp"
#include "advice/extra_test.hpp"
#include "advice/further.hpp"
#include "advice/problem.hpp"
#include "advice/spot.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace halfsplit::advice {

using diagnosis::Belief;
using diagnosis::Predictor;
using harness::Harness;
using harness::Index;
using harness::none;

namespace {

Ambiguity grouped(Predictor& predictor, const Belief& prior) {
    const Harness& harness = predictor.harness();
    const Index clip = harness.networks[predictor.network()].clip;
    Ambiguity result;
    if (clip != none) {
        Arrangement as_it_stands;
        as_it_stands.clip = clip;
        result.readings = readings_in(as_it_stands, harness, predictor.network());
    }
    std::vector<std::vector<double>> predicted;
    for (const Representative& own : representatives(harness, prior, 0)) {
        result.cases.push_back(*own.explanation);
        result.chance.push_back(own.probability);
        predicted.push_back(predictor.ohms(*own.explanation, prior.now, result.readings));
    }
    const std::vector<std::size_t> order = heaviest_first(result.chance);
    std::vector<std::vector<int>> signature(result.cases.size());
    for (std::size_t reading = 0; reading < result.readings.size(); ++reading) {
        std::vector<double> column;
        for (const auto& row : predicted) column.push_back(row[reading]);
        std::vector<OutcomeClass> classes;
        const std::vector<int> outcome = classify(column, order, classes);
        for (std::size_t i = 0; i < outcome.size(); ++i) signature[i].push_back(outcome[i]);
    }
    std::map<std::vector<int>, std::size_t> numbers;
    for (const auto& own : signature)
        result.group.push_back(numbers.try_emplace(own, numbers.size()).first->second);
    result.groups = numbers.size();
    return result;
}

class Surveyor {
  public:
    Surveyor(const Harness& harness, Index network, const Aim& aim)
        : harness_(harness), network_(network), predictor_(harness, network), costs_(harness, network) {
        result_.aim = aim;
    }

    Survey run() {
        const harness::Network& own = harness_.networks[network_];
        result_.network = own.id;
        result_.network_name = own.name;
        result_.assumed = assumed(harness_, harness_.assumptions);
        for (const harness::Variant& variant : predictor_.variants())
            result_.variants.push_back(variant.in_words);
        result_.points = static_cast<std::size_t>(
            std::count_if(harness_.points.begin(), harness_.points.end(),
                          [&](const harness::Point& point) { return point.network == network_; }));
        prior_ = infer(predictor_, {});
        ambiguity_ = grouped(predictor_, prior_);
        result_.readings = ambiguity_.readings.size();
        count();
        take_costly();
        if (own.clip != none) {
            result_.clip = point_name(harness_, own.clip);
            find_extra_tests();
            take_quote();
        }
        for (Found& found : found_) result_.groups.push_back(std::move(found.group));
        return std::move(result_);
    }

  private:
    bool is_sound(std::size_t at) const { return ambiguity_.cases[at].faults.empty(); }
    Index part_of(std::size_t at) const { return ambiguity_.cases[at].faults.front().part; }

    // By group of the ambiguity: its parts, and whether a sound bus is in it.
    struct Content {
        std::set<Index> parts;
        bool sound = false;
    };

    void count() {
        std::vector<Content> content(ambiguity_.groups);
        double faulty = 0;
        for (std::size_t i = 0; i < ambiguity_.cases.size(); ++i) {
            Content& own = content[ambiguity_.group[i]];
            if (is_sound(i)) {
                own.sound = true;
                continue;
            }
            own.parts.insert(part_of(i));
            faulty += ambiguity_.chance[i];
            ++result_.faults;
        }
        count_shares(content, faulty);
        gather_groups(content, faulty);
        std::set<Index> parts;
        for (const Content& own : content) parts.insert(own.parts.begin(), own.parts.end());
        result_.parts = parts.size();
        for (const Content& own : content)
            result_.largest_group = std::max(result_.largest_group, own.parts.size());
    }

    void count_shares(const std::vector<Content>& content, double faulty) {
        Share detected;
        std::array<Share, 3> isolated{};
        for (std::size_t i = 0; i < ambiguity_.cases.size(); ++i) {
            const Content& own = content[ambiguity_.group[i]];
            if (is_sound(i) || own.sound) continue;
            detected.of_faults += 1;
            detected.by_chance += ambiguity_.chance[i];
            for (std::size_t size = own.parts.size(); size <= isolated.size(); ++size) {
                isolated[size - 1].of_faults += 1;
                isolated[size - 1].by_chance += ambiguity_.chance[i];
            }
        }
        const auto share = [](const Share& part, double faults, double chance) {
            return Share{faults > 0 ? part.of_faults / faults : 0, chance > 0 ? part.by_chance / chance : 0};
        };
        result_.detected = share(detected, static_cast<double>(result_.faults), faulty);
        result_.to_one = share(isolated[0], detected.of_faults, detected.by_chance);
        result_.to_two = share(isolated[1], detected.of_faults, detected.by_chance);
        result_.to_three = share(isolated[2], detected.of_faults, detected.by_chance);
    }

    // What is worth telling: groups of several parts, and what a sound bus hides. Groups of different
    // variants with the same faults are one.
    void gather_groups(const std::vector<Content>& content, double faulty) {
        std::vector<std::vector<std::size_t>> members(ambiguity_.groups);
        for (std::size_t i = 0; i < ambiguity_.cases.size(); ++i) members[ambiguity_.group[i]].push_back(i);
        std::map<std::pair<std::vector<std::string>, bool>, std::vector<std::size_t>> merged;
        for (std::size_t group = 0; group < members.size(); ++group) {
            const Content& own = content[group];
            if (own.parts.empty() || (own.parts.size() == 1 && !own.sound)) continue;
            auto& together = merged[{fault_names(members[group]), own.sound}];
            together.insert(together.end(), members[group].begin(), members[group].end());
        }
        for (const auto& [key, own] : merged) {
            AmbiguityGroup group{.sound = key.second, .faults = key.first};
            describe(own, faulty, group);
            found_.push_back({std::move(group), own});
        }
        std::stable_sort(found_.begin(), found_.end(), [](const Found& a, const Found& b) {
            return likelier(a.group.chance, b.group.chance);
        });
    }

    std::vector<std::string> fault_names(const std::vector<std::size_t>& members) const {
        std::vector<std::string> names;
        for (const std::size_t i : members) {
            if (is_sound(i)) continue;
            std::string name = diagnosis::name(harness_, ambiguity_.cases[i].faults.front());
            if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
        }
        return names;
    }

    void describe(const std::vector<std::size_t>& members, double faulty, AmbiguityGroup& group) const {
        std::set<Index> parts;
        std::set<std::size_t> variants;
        std::set<diagnosis::Mode> modes;
        for (const std::size_t i : members) {
            variants.insert(ambiguity_.cases[i].variant);
            if (is_sound(i)) continue;
            group.chance += ambiguity_.chance[i] / faulty;
            parts.insert(part_of(i));
            modes.insert(ambiguity_.cases[i].faults.front().mode);
        }
        for (const Index part : parts) group.parts.push_back(harness_.parts[part].id);
        const std::vector<std::string> words = diagnosis::mode_words();
        for (const diagnosis::Mode mode : modes) group.modes.push_back(words[static_cast<std::size_t>(mode)]);
        if (variants.size() == predictor_.variants().size()) return;
        for (const std::size_t variant : variants)
            group.variants.push_back(predictor_.variants()[variant].in_words);
    }

    void find_extra_tests() {
        const auto readings = extra_readings(predictor_, costs_, harness_.networks[network_].clip);
        for (Found& found : found_) {
            std::vector<GroupMember> members;
            for (const std::size_t i : found.members)
                members.push_back({&ambiguity_.cases[i], ambiguity_.chance[i]});
            Splits splits = split(predictor_, costs_, readings, members);
            found.group.cheapest = std::move(splits.cheapest);
            found.group.sharpest = std::move(splits.sharpest);
        }
    }

    void take_costly() {
        const auto by_part = diagnosis::by_part(prior_, harness_);
        for (Index part = 0; part < by_part.size(); ++part) {
            if (by_part[part] <= 0) continue;
            result_.costly.push_back({harness_.parts[part].id, harness_.parts[part].name,
                                      costs_.workshop().reach(costs_.look(part), harness_.start, 0),
                                      by_part[part], -1});
        }
        std::stable_sort(result_.costly.begin(), result_.costly.end(),
                         [](const CostlyPart& a, const CostlyPart& b) { return a.minutes > b.minutes; });
    }

    void take_quote() {
        const Index clip = harness_.networks[network_].clip;
        const Posed posed =
            pose({{harness_, network_, prior_, costs_, {harness_.start, 0}, clip}, {}, {}}, predictor_);
        const plan::Recommendation plan = plan_for(posed, result_.aim);
        const auto steps = real_steps(plan, posed);
        if (steps.empty()) return;
        result_.quote = quote_of(plan, *steps.front(), posed);
        result_.not_cured = not_cured(harness_, posed);
        const auto by_part = minutes_by_part(*steps.front(), posed, harness_.parts.size());
        for (CostlyPart& part : result_.costly) part.hunt_minutes = by_part[find_part(harness_, part.part)];
    }

    struct Found {
        AmbiguityGroup group;
        std::vector<std::size_t> members;  // cases
    };

    const Harness& harness_;
    Index network_;
    Predictor predictor_;
    access::Costs costs_;
    Belief prior_;
    Ambiguity ambiguity_;
    std::vector<Found> found_;
    Survey result_;
};

}  // namespace

Ambiguity ambiguity(Predictor& predictor) {
    return grouped(predictor, infer(predictor, {}));
}

Survey survey(const Harness& harness, Index network, const Aim& aim) {
    return Surveyor(harness, network, aim).run();
}

}  // namespace halfsplit::advice
