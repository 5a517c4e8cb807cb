// The job itself: remarks, pauses, its end, and corrections.
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "entries.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::job {

namespace {

Body alone(Input& input, Body body) {
    const std::string word = input.take();
    input.require_done(word);
    return body;
}

// A record that is there, is not the opening, and counts.
Sequence take_record_number(Input& input, const State& state) {
    const std::string word = input.take("the number of a record", "For example: amend 7 0.4");
    const std::optional<double> number = parse_number(word);
    if (!number || *number < 1 || *number > static_cast<double>(state.last) ||
        *number != std::floor(*number)) {
        input.refuse_last({"event-value", fmt::format("'{}' is not the number of a record", word),
                           state.last < 2 ? "a record, but there is none to correct yet"
                                          : fmt::format("a number from 2 to {}", state.last),
                           "", "Look the number up in the review of the job."});
    }
    const auto sequence = static_cast<Sequence>(*number);
    if (sequence == 1) {
        input.refuse_last({"event-not-possible", "record 1 opens the job and stays as it is",
                           "a later record", "", "Open another job to work with another harness."});
    }
    if (state.undone.count(sequence) > 0) {
        input.refuse_last({"event-not-possible", fmt::format("record {} is undone already", sequence),
                           "a record that still counts", "",
                           "To bring it back, undo the record that undid it."});
    }
    return sequence;
}

void require_not_amending(const Input& input, const Context& context, const std::string& word) {
    if (!context.amending) return;
    input.refuse_last({"event-not-possible", fmt::format("'{}' cannot take a record's place", word),
                       "what should stand in the record", "", "Type it as an entry of its own."});
}

// In an amend, a bare value is for the same reading again, and a bare verdict for the same part.
Context context_of(Sequence target, const Context& context) {
    Context inner{context.harness,  context.state, {},  context.live_bus,
                  context.dead_bus, context.apart, true};
    for (const TakenReading& taken : context.state.readings) {
        if (taken.sequence != target) continue;
        inner.expectation.red = taken.reading.red;
        inner.expectation.black = taken.reading.black;
        inner.expectation.quantity = taken.reading.quantity;
        // The bus may be live again by now, or dead; what counts is how it was then.
        if (taken.state.battery_off) inner.live_bus = false;
        inner.dead_bus = taken.state.battery_off;
    }
    for (const TakenDistance& taken : context.state.distances) {
        if (taken.sequence != target) continue;
        inner.apart = taken.state.apart;
        if (taken.state.battery_off) inner.live_bus = false;
    }
    for (const SeenPart& look : context.state.seen) {
        if (look.sequence == target) inner.expectation.part = look.seen.part;
    }
    return inner;
}

}  // namespace

Body pause(Input& input, const Context&) {
    return alone(input, Paused{});
}
Body resume(Input& input, const Context&) {
    return alone(input, Resumed{});
}
Body close(Input& input, const Context&) {
    return alone(input, Closed{});
}

Body remark(Input& input, const Context&) {
    input.take();
    if (input.done()) input.take("what is to be remarked", "For example: remark carpet wet under the step");
    return Remark{input.take_rest()};
}

Body undo(Input& input, const Context& context) {
    input.take();
    require_not_amending(input, context, "undo");
    if (!input.done()) {
        const Sequence target = take_record_number(input, context.state);
        input.require_done("the number");
        return Undo{target};
    }
    if (context.state.entered.empty())
        input.refuse_last(
            {"event-not-possible", "there is nothing to undo", "", "", "Go on with the next entry."});
    return Undo{context.state.entered.back()};
}

Body amend(Input& input, const Context& context) {
    input.take();
    require_not_amending(input, context, "amend");
    const Sequence target = take_record_number(input, context.state);
    const std::vector<Sequence>& entered = context.state.entered;
    if (!std::binary_search(entered.begin(), entered.end(), target)) {
        input.refuse_last({"event-not-possible", fmt::format("record {} was not entered by hand", target),
                           "a record that somebody entered", "",
                           "Undo it, or say how it is: cover on, cover off, plugged, unplugged."});
    }
    if (input.done()) input.take("what should stand in the record's place", "For example: amend 7 0.4");
    Event event = parse_entry(input, context_of(target, context));
    event.minutes = input.minutes();
    return Amend{target, std::make_shared<const Event>(std::move(event))};
}

}  // namespace halfsplit::job
