// The grammar, one function for each first word. Each takes its first word from the input, refuses what
// cannot be, and leaves nothing of the input over.
#pragma once

#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/event.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/job/words.hpp"

#include "input.hpp"

namespace halfsplit::job {

// What an entry is understood against.
struct Context {
    const harness::Harness& harness;
    const State& state;
    Expectation expectation;
    bool live_bus = false;           // the job says so
    bool dead_bus = false;           // the job says so
    std::vector<std::string> apart;  // parts unplugged when what is entered happened
    bool amending = false;           // the entry takes an earlier record's place
};

// The entry that begins at the next word (parse.cpp).
Event parse_entry(Input& input, const Context& context);

// entry_reading.cpp
Body awaited_reading(Input& input, const Context& context);
Body reading(Input& input, const Context& context);

// entry_distance.cpp
Body distance(Input& input, const Context& context);

// entry_vehicle.cpp
Body intake(Input& input, const Context& context);
Body safe(Input& input, const Context& context);
Body verified(Input& input, const Context& context);
Body answers(Input& input, const Context& context);
Body silent(Input& input, const Context& context);

// entry_hands.cpp
Body seen(Input& input, const Context& context);
Body awaited_look(Input& input, const Context& context);
Body cover(Input& input, const Context& context);
Body unplugged(Input& input, const Context& context);
Body plugged(Input& input, const Context& context);
Body clip(Input& input, const Context& context);
Body repair(Input& input, const Context& context);

// entry_differs.cpp
Body differs(Input& input, const Context& context);

// entry_meter.cpp
Body meter(Input& input, const Context& context);
Body pins(Input& input, const Context& context);

// entry_job.cpp
Body remark(Input& input, const Context& context);
Body pause(Input& input, const Context& context);
Body resume(Input& input, const Context& context);
Body close(Input& input, const Context& context);
Body undo(Input& input, const Context& context);
Body amend(Input& input, const Context& context);

}  // namespace halfsplit::job
