// Where the vehicle turns out to be other than its harness file.
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "choices.hpp"
#include "entries.hpp"
#include "names.hpp"
#include "value.hpp"

#include <algorithm>

namespace halfsplit::job {

namespace {

using harness::Difference;
using harness::Fitted;
using harness::Index;
using DifferenceKind = harness::Difference::Kind;

constexpr const char* differs_example =
    "For example: differs fitted LIFT no, or: differs connector X9 between M1 and M2";
constexpr const char* connector_example =
    "For example: differs connector X9 in W3 cavities 3/4 after 1.2 at PLACE under COVER,COVER";

constexpr Choices<DifferenceKind, 4> difference_kinds{{{"fitted", DifferenceKind::Fitted},
                                                       {"connector", DifferenceKind::Connector},
                                                       {"place", DifferenceKind::Place},
                                                       {"minutes", DifferenceKind::Minutes}}};
constexpr Choices<Fitted, 3> fitted_choices{
    {{"yes", Fitted::Yes}, {"no", Fitted::No}, {"unknown", Fitted::Unknown}}};

void take_fitted(Input& input, const Context& context, Difference& difference) {
    const std::string id = input.take("an option or a part", differs_example);
    std::vector<std::string> names;
    for (const harness::Option& option : context.harness.options) names.push_back(option.id);
    for (const harness::Part& part : context.harness.parts) names.push_back(part.id);
    const auto name = std::find_if(names.begin(), names.end(),
                                   [&](const std::string& one) { return lower(one) == lower(id); });
    if (name == names.end()) {
        input.refuse_last({"event-name-unknown", fmt::format("no option and no part is named '{}'", id),
                           "an option or a part of this harness", nearest_name(id, names), differs_example});
    }
    difference.id = *name;
    difference.fitted = take_choice(input, fitted_choices, "For example: differs fitted LIFT no");
}

void take_cavities(const Input& input, const std::string& word, const harness::Network& network,
                   Difference& difference) {
    const std::size_t slash = word.find('/');
    if ((slash != std::string::npos) != network.single_line) {
        difference.cavity[0] = word.substr(0, slash);
        if (slash != std::string::npos) difference.cavity[1] = word.substr(slash + 1);
        return;
    }
    input.refuse_last({"event-value", fmt::format("'{}' are not the cavities of {}", word, network.id),
                       network.single_line ? "one cavity" : "H and L with a slash between, like 3/4", "",
                       connector_example});
}

// "at PLACE" and, where there are some, "under COVER,COVER".
void take_access(Input& input, const Context& context, Difference& difference) {
    const harness::Harness& harness = context.harness;
    difference.place = harness.places[take_place(input, harness)].id;
    if (lower(input.peek()) != "under") return;
    input.take();
    std::string covers = input.take("the covers", "For example: under COVER,COVER");
    std::replace(covers.begin(), covers.end(), ',', ' ');
    for (const std::string& each : split_words(covers))
        difference.covers.push_back(harness.covers[cover_named(input, each, harness)].id);
}

// A run as it was named: from its first end, or the other way round.
struct NamedRun {
    const harness::Part* run = nullptr;
    bool reversed = false;
};

// The runs that lie between two neighbours.
std::vector<NamedRun> runs_between(const harness::Harness& harness, Index one, Index other) {
    std::vector<NamedRun> found;
    for (const harness::Part& part : harness.parts) {
        const auto& strand = part.strand[0] ? part.strand[0] : part.strand[1];
        if (!strand) continue;
        const Index from = harness.terminals[strand->from].part;
        const Index to = harness.terminals[strand->to].part;
        if (from == one && to == other) found.push_back({&part, false});
        if (from == other && to == one && one != other) found.push_back({&part, true});
    }
    return found;
}

NamedRun take_run_between(Input& input, const harness::Harness& harness) {
    const Index one = take_part(input, harness);
    if (lower(input.peek()) == "and") input.take();
    const Index other = take_part(input, harness);
    const std::vector<NamedRun> found = runs_between(harness, one, other);
    if (found.size() == 1) return found.front();
    const std::string names = harness.parts[one].id + " and " + harness.parts[other].id;
    if (found.empty())
        input.refuse_last({"event-not-possible", fmt::format("no run lies between {}", names),
                           "two neighbours on the bus", "", connector_example});
    std::vector<std::string> runs;
    for (const NamedRun& each : found) runs.push_back(each.run->id);
    input.refuse_last({"event-not-possible", fmt::format("{} runs lie between {}", runs.size(), names),
                       "in, and one of " + join(runs, ", "), "", connector_example});
}

// "in RUN", or "between PART [and] PART".
NamedRun take_run(Input& input, const harness::Harness& harness) {
    const std::string key = lower(input.take("\"in\" and a run", connector_example));
    if (key == "between") return take_run_between(input, harness);
    if (key != "in")
        input.refuse_last({"event-word-unknown", "the run that the connector is in is missing",
                           "in and the run, or between and the parts at its two ends", "",
                           connector_example});
    const harness::Part& run = harness.parts[take_part(input, harness)];
    if (run.kind != harness::PartKind::Run)
        input.refuse_last({"event-not-possible", fmt::format("{} is a {}", run.id, word(run.kind)), "a run",
                           "", connector_example});
    return {&run, false};
}

void take_connector(Input& input, const Context& context, Difference& difference) {
    difference.id = input.take("the name that the connector is to have", connector_example);
    const NamedRun named = take_run(input, context.harness);
    const harness::Part& run = *named.run;
    difference.run = run.id;
    const harness::Network& network = context.harness.networks[run.network];
    difference.cavity = {"1", network.single_line ? "" : "2"};
    while (!input.done()) {
        const std::string key = lower(input.take());
        if (key == "cavities" || key == "cavity") {
            take_cavities(input, input.take("the cavities", connector_example), network, difference);
        } else if (key == "after") {
            difference.after_m = number_in(input, input.take("metres", connector_example), run.length_m,
                                           "metres from the run's first end, like after 1.2");
            if (named.reversed) difference.after_m = run.length_m - *difference.after_m;
        } else if (key == "at") {
            take_access(input, context, difference);
        } else {
            input.refuse_last({"event-word-unknown", fmt::format("'{}' says nothing about a connector", key),
                               "cavities, after, at", nearest_name(key, {"cavities", "after", "at"}),
                               connector_example});
        }
    }
}

void take_minutes(Input& input, const Context& context, Difference& difference) {
    const char* example = "For example: differs minutes COVER 20 15";
    difference.id = context.harness.covers[take_cover(input, context.harness)].id;
    difference.off_minutes = number_in(input, input.take("minutes to take it off", example), 1440, example);
    difference.on_minutes = number_in(input, input.take("minutes to refit it", example), 1440, example);
}

}  // namespace

Body differs(Input& input, const Context& context) {
    input.take();
    Difference difference;
    difference.kind = take_choice(input, difference_kinds, differs_example);
    switch (difference.kind) {
        case DifferenceKind::Fitted:
            take_fitted(input, context, difference);
            break;
        case DifferenceKind::Connector:
            take_connector(input, context, difference);
            break;
        case DifferenceKind::Place:
            difference.id = context.harness.parts[take_part(input, context.harness)].id;
            take_access(input, context, difference);
            break;
        case DifferenceKind::Minutes:
            take_minutes(input, context, difference);
            break;
    }
    input.require_done("what differs");
    return VehicleDiffers{std::move(difference)};
}

}  // namespace halfsplit::job
