// Readings, awaited or with their place.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "entries.hpp"
#include "names.hpp"
#include "value.hpp"

namespace halfsplit::job {

namespace {

using harness::Index;

bool measured(const Reading& reading) {
    return reading.outcome == Outcome::Value || reading.outcome == Outcome::Closed ||
           reading.outcome == Outcome::Open;
}

void require_dead_bus(const Input& input, const Context& context, const Reading& reading) {
    if (!context.live_bus || reading.quantity != Quantity::Ohm || !measured(reading)) return;
    input.refuse_last({"event-live-bus",
                       "the job says that the battery is connected, and ohms on a live bus mean nothing",
                       "a reading taken with the battery off and the maker's waiting time over", "",
                       "Make it safe, then type: safe ignition=off bus=asleep battery=off waited=10"});
}

// Advice to read volts has the battery connected first.
bool is_awaited_in_volts(const Context& context, const Reading& reading) {
    const Expectation& awaited = context.expectation;
    return !context.amending && awaited.quantity == Quantity::Volt && reading.red == awaited.red &&
           reading.black == awaited.black;
}

void require_live_bus(const Input& input, const Context& context, const Reading& reading) {
    if (!context.dead_bus || reading.quantity != Quantity::Volt || !measured(reading)) return;
    if (is_awaited_in_volts(context, reading)) return;
    input.refuse_last({"event-dead-bus",
                       "the job says that the battery is off, and there are no volts on a dead bus",
                       "a reading taken with the battery connected, the bus awake or asleep", "",
                       "Connect it as the maker's procedure says, then type: "
                       "safe ignition=on bus=awake battery=on"});
}

Body read_between(Input& input, const Context& context, Reading reading) {
    take_value(input, reading);
    require_dead_bus(input, context, reading);
    require_live_bus(input, context, reading);
    return reading;
}

Index clip_point(const Context& context) {
    if (!context.state.clip.empty()) return harness::find_point(context.harness, context.state.clip);
    const Index network = network_of(context.harness, context.state.opened.network);
    return network == harness::none ? harness::none : context.harness.networks[network].clip;
}

// The terminal that "clip" stands for when the other lead is on `other`.
std::string clip_beside(const Input& input, const Context& context, const std::string& other) {
    const harness::Harness& harness = context.harness;
    const Index point = clip_point(context);
    if (point == harness::none) {
        input.refuse_last({"event-not-possible", "nothing says where the clip is",
                           "a terminal in place of clip", "",
                           "Name the terminal, or say where the clip is: clip POINT"});
    }
    const harness::Terminal& beside = harness.terminals[harness::find_terminal(harness, other)];
    const Index terminal = harness.points[point].terminal.at(static_cast<std::size_t>(beside.line));
    if (beside.network != harness.points[point].network || terminal == harness::none) {
        input.refuse_last({"event-not-possible",
                           fmt::format("the clip's point {} has no terminal on the line of {}",
                                       harness::point_name(harness, point), other),
                           "a terminal in place of clip", "", "Name the terminal that the lead was on."});
    }
    return harness::terminal_name(harness, terminal);
}

void require_different_terminals(const Input& input, const Context& context, const std::string& red,
                                 const std::string& black) {
    const bool any_terminal = harness::find_terminal(context.harness, red) != harness::none ||
                              harness::find_terminal(context.harness, black) != harness::none;
    if (!any_terminal) {
        input.refuse_last(
            {"event-not-possible", fmt::format("neither {} nor {} is a terminal", red, black),
             "at least one lead on a terminal of the harness", "",
             fmt::format("For example: reading {} {} 0.4", example_terminal(context.harness), black)});
    }
    if (red == black) {
        input.refuse_last({"event-not-possible", fmt::format("both leads are on {}", red),
                           "two different places", "", "Name where the other lead was."});
    }
}

}  // namespace

Body awaited_reading(Input& input, const Context& context) {
    const Expectation& awaited = context.expectation;
    if (!awaited.red.empty() && !awaited.black.empty())
        return read_between(input, context,
                            {.red = awaited.red,
                             .black = awaited.black,
                             .quantity = awaited.quantity,
                             .moved = awaited.moved});
    input.refuse_next(
        {"event-nothing-awaited",
         fmt::format("'{}' would be a reading, but none is awaited here", input.peek()),
         "where it was read, and the value", "",
         fmt::format("For example: reading {} clip {}", example_terminal(context.harness), input.peek())});
}

Body reading(Input& input, const Context& context) {
    input.take();
    std::string red = take_tip(input, context.harness);
    std::string black = take_tip(input, context.harness);
    require_different_terminals(input, context, red, black);
    if (red == "clip") red = clip_beside(input, context, black);
    if (black == "clip") black = clip_beside(input, context, red);
    require_different_terminals(input, context, red, black);
    return read_between(input, context, {.red = red, .black = black});
}

}  // namespace halfsplit::job
