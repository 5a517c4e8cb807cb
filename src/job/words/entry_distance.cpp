// Distances to a fault, measured from both ends of a stretch of the pair.
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/electrics/stretch.hpp"
#include "halfsplit/harness/variants.hpp"

#include <fmt/format.h>

#include "choices.hpp"
#include "entries.hpp"
#include "names.hpp"
#include "obstacle.hpp"
#include "value.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::job {

namespace {

using electrics::DistanceLines;
using electrics::DistanceMethod;
using electrics::Obstacle;
using electrics::Stretch;
using electrics::StretchItem;
using harness::Harness;
using harness::Index;
using harness::Line;
using harness::none;

constexpr Choices<DistanceMethod, 3> methods{{{"capacitance", DistanceMethod::Capacitance},
                                              {"ohms", DistanceMethod::Ohms},
                                              {"loop", DistanceMethod::Loop}}};

constexpr Choices<DistanceLines, 3> line_words{
    {{"h", DistanceLines::High}, {"l", DistanceLines::Low}, {"hl", DistanceLines::Between}}};

std::string example_of(DistanceMethod method) {
    switch (method) {
        case DistanceMethod::Capacitance:
            return "For example: distance capacitance FROM TO h 110pF 290pF";
        case DistanceMethod::Ohms:
            return "For example: distance ohms FROM TO hl 0.4 0.7";
        case DistanceMethod::Loop:
            return "For example: distance loop FROM TO h 300 100";
    }
    return "";
}

// An end: a point, or one of its terminals, which says the line as well.
struct End {
    Index point = none;
    std::optional<Line> line;
};

End take_end(Input& input, const Context& context) {
    const std::string word = input.peek();
    const Harness& harness = context.harness;
    End end{take_point(input, harness), std::nullopt};
    const harness::Point& point = harness.points[end.point];
    for (const Line line : harness::both_lines) {
        const Index terminal = point.terminal.at(static_cast<std::size_t>(line));
        if (terminal != none && lower(harness::terminal_name(harness, terminal)) == lower(word))
            end.line = line;
    }
    const Index network = network_of(harness, context.state.opened.network);
    if (network != none && point.network != network) {
        input.refuse_last({"event-not-possible",
                           fmt::format("{} is on another bus than the one this job is about", word),
                           "an end on the bus " + harness.networks[network].id, "",
                           "Name the end of the stretch on this bus, or start a job for the other."});
    }
    return end;
}

DistanceLines as_lines(Line line) {
    return line == Line::High ? DistanceLines::High : DistanceLines::Low;
}

// Said by word, or else by the terminals that were named. Ohms may be from line to line or from line to
// ground: there the word has to be said.
DistanceLines take_lines(Input& input, DistanceMethod method, const End& from, const End& to) {
    const std::string next = lower(input.peek());
    const bool said = std::any_of(line_words.begin(), line_words.end(),
                                  [&](const auto& choice) { return choice.first == next; });
    const bool by_ends = from.line && to.line && *from.line == *to.line;
    if (!said && by_ends && method != DistanceMethod::Ohms) return as_lines(*from.line);
    const DistanceLines lines = take_choice(
        input, line_words, "h or l: that line to ground; hl: line to line. " + example_of(method));
    if (lines == DistanceLines::Between && method == DistanceMethod::Loop) {
        input.refuse_last(
            {"event-not-possible", "a loop bridge finds a short of one line to ground",
             "h or l, the line with the short", "",
             "For a short from H to L measure ohms from both ends: distance ohms FROM TO hl ..."});
    }
    for (const End* end : {&from, &to}) {
        if (!end->line || lines == DistanceLines::Between || as_lines(*end->line) == lines) continue;
        input.refuse_last(
            {"event-not-possible",
             fmt::format("an end was named by its terminal on line {}", *end->line == Line::High ? "H" : "L"),
             "the line of the ends, or ends named as points", "", example_of(method)});
    }
    return lines;
}

// "110 pF" comes as two words.
double take_farad(Input& input) {
    const std::string example = example_of(DistanceMethod::Capacitance);
    const std::string word = input.take("a capacitance with its unit: 110pF, 2.2nF", example);
    if (const auto farad = parse_farad(word)) return *farad;
    if (const auto farad = parse_farad(word + input.peek())) {
        input.take();
        return *farad;
    }
    const bool bare = parse_number(word).has_value();
    input.refuse_last(
        {"event-value",
         bare ? fmt::format("'{}' has no unit, and a meter changes from pF to nF by itself", word)
              : fmt::format("'{}' is not a capacitance", word),
         "a capacitance with its unit: 110pF, 2.2nF", "",
         bare ? fmt::format("Type {0}pF or {0}nF, as the meter shows it.", word) : example});
}

double take_ohms(Input& input, DistanceMethod method) {
    const std::string expected =
        method == DistanceMethod::Loop ? "the arms of the bridge, P and Q" : "ohms from either end, like 0.4";
    const std::string word = input.take(expected, example_of(method));
    const double ohm = ohms_in(input, word, expected);
    if (!std::isfinite(ohm)) {
        input.refuse_last({"event-value", "OL locates nothing: there is no short to be seen from that end",
                           expected, "", "For an open measure capacitance from both ends."});
    }
    return ohm;
}

void require_dead_bus(const Input& input, const Context& context) {
    if (!context.live_bus) return;
    input.refuse_last({"event-live-bus",
                       "the job says that the battery is connected, and nothing is measured along a live bus",
                       "a distance measured with the battery off and the maker's waiting time over", "",
                       "Make it safe, then type: safe ignition=off bus=asleep battery=off waited=10"});
}

// On every variant that the vehicle may be, as long as it has both ends: what is not sure is not measured
// along. The first stands for them all.
Stretch stretch_between(const Input& input, const Context& context, Index from, Index to) {
    const Harness& harness = context.harness;
    electrics::Apart apart;
    for (const std::string& id : context.apart) {
        if (const Index part = harness::find_part(harness, id); part != none) apart.push_back(part);
    }
    std::optional<Stretch> stretch;
    std::optional<Obstacle> obstacle;
    std::string in_the_way_on;  // variant, in words
    for (const harness::Variant& variant : harness::variants(harness)) {
        const auto assembly = electrics::assemble(harness, harness.points[from].network, variant.present);
        auto found = electrics::find_stretch(harness, assembly, apart, from, to);
        if (auto* way = std::get_if<Stretch>(&found)) {
            if (!stretch) stretch = std::move(*way);
        } else if (const auto& why = std::get<Obstacle>(found);
                   !obstacle || obstacle->kind == Obstacle::Kind::NotThere) {
            obstacle = why;
            in_the_way_on = variant.in_words;
        }
    }
    const bool sure = !obstacle || obstacle->kind == Obstacle::Kind::NotThere;
    if (stretch && sure) return *stretch;
    refuse_obstacle(input, harness, *obstacle, from, to, stretch ? in_the_way_on : "");
}

// The run that holds these metres; of two that meet there, the first. A stretch has a run at least.
const StretchItem& run_at(const Harness& harness, const std::vector<StretchItem>& items, double metres) {
    std::size_t found = items.size();
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (harness.parts[items[i].part].kind != harness::PartKind::Run) continue;
        if (found == items.size() || items[i].from_m < metres) found = i;
    }
    return items.at(found);
}

// The end of a run that comes first on the way: the one that the part before it on the way has too. A run
// that is the first thing on the way begins at the point itself.
std::string first_end(const Harness& harness, const std::vector<StretchItem>& items, const StretchItem& item,
                      Index from, Line line) {
    const auto& strand = harness.parts[item.part].strand.at(static_cast<std::size_t>(line));
    const auto at = static_cast<std::size_t>(&item - items.data());
    const Index first_terminal = harness.points[from].terminal.at(static_cast<std::size_t>(line));
    const Index part_before = at == 0 ? none : items[at - 1].part;
    const auto leads_in = [&](Index terminal) {
        return at == 0 ? terminal == first_terminal : harness.terminals[terminal].part == part_before;
    };
    return harness::terminal_name(
        harness, leads_in(strand->to) && !leads_in(strand->from) ? strand->to : strand->from);
}

void tell_where(const Harness& harness, const Stretch& stretch, Index from, Distance& distance) {
    const auto& items = electrics::measured_line(stretch, distance.lines);
    const StretchItem& run = run_at(harness, items, distance.metres);
    distance.run = harness.parts[run.part].id;
    distance.metres_into_run = distance.metres - run.from_m;
    distance.run_end =
        first_end(harness, items, run, from, distance.lines == DistanceLines::Low ? Line::Low : Line::High);
    for (const StretchItem& item : items) {
        const std::string& id = harness.parts[item.part].id;
        const bool near = item.from_m <= distance.metres + distance.deviation &&
                          item.to_m >= distance.metres - distance.deviation;
        if (near && id != distance.run &&
            std::find(distance.also.begin(), distance.also.end(), id) == distance.also.end())
            distance.also.push_back(id);
    }
}

}  // namespace

Body distance(Input& input, const Context& context) {
    input.take();
    Distance distance;
    distance.method = take_choice(input, methods, example_of(DistanceMethod::Capacitance));
    const End from = take_end(input, context);
    const End to = take_end(input, context);
    distance.from = harness::point_name(context.harness, from.point);
    distance.to = harness::point_name(context.harness, to.point);
    if (from.point == to.point) {
        input.refuse_last({"event-not-possible", fmt::format("both ends are at {}", distance.from),
                           "two different ends", "", example_of(distance.method)});
    }
    distance.lines = take_lines(input, distance.method, from, to);
    require_dead_bus(input, context);
    const Stretch stretch = stretch_between(input, context, from.point, to.point);
    for (double* figure : {&distance.first, &distance.second}) {
        *figure = distance.method == DistanceMethod::Capacitance ? take_farad(input)
                                                                 : take_ohms(input, distance.method);
    }
    input.require_done("the two figures");
    try {
        const electrics::Uncertain found =
            electrics::locate(stretch, distance.method, distance.lines, distance.first, distance.second);
        distance.metres = found.value;
        distance.deviation = found.deviation;
    } catch (const electrics::ImpossibleDistance& why) {
        input.refuse_last({"event-value", why.what(),
                           fmt::format("figures that put the fault on the {} from {} to {}",
                                       format_metres(stretch.length_m), distance.from, distance.to),
                           "",
                           "Check which figure belongs to which end, and zero the leads; then read again."});
    }
    tell_where(context.harness, stretch, from.point, distance);
    return distance;
}

}  // namespace halfsplit::job
