#include "advice/hindsight/repeats.hpp"

#include "advice/hindsight/heed.hpp"

namespace halfsplit::advice {

namespace {

// A figure, a beep or no beep: what a repeat of it would only repeat.
bool has_answer(const job::Reading& reading) {
    return reading.outcome != job::Outcome::NotSure && reading.outcome != job::Outcome::CouldNotReach;
}

}  // namespace

job::Sequence repeat_of(const job::Reading& reading, const job::CircuitState& circuit,
                        const job::State& before) {
    for (const job::TakenReading& taken : before.readings) {
        if (has_answer(taken.reading) && taken.reading.quantity == reading.quantity &&
            taken.reading.moved == reading.moved && taken.state == circuit &&
            same_tips(reading, taken.reading.red, taken.reading.black))
            return taken.sequence;
    }
    return 0;
}

job::Sequence repeat_of(const job::Seen& seen, const job::State& before) {
    for (const job::SeenPart& earlier : before.seen) {
        if (tells(earlier.seen.verdict) && earlier.seen.part == seen.part &&
            earlier.repairs == before.repairs.size())
            return earlier.sequence;
    }
    return 0;
}

}  // namespace halfsplit::advice
