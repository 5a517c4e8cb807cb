// From the first word of an entry to the function that understands the rest.
#include "halfsplit/base/text.hpp"
#include "halfsplit/job/words.hpp"

#include <fmt/format.h>

#include "entries.hpp"
#include "names.hpp"
#include "value.hpp"

#include <array>

namespace halfsplit::job {

namespace {

struct Entry {
    const char* word;
    Body (*parse)(Input&, const Context&);
};

constexpr std::array<Entry, 26> entries{{{"reading", reading},
                                         {"distance", distance},
                                         {"intake", intake},
                                         {"safe", safe},
                                         {"answers", answers},
                                         {"silent", silent},
                                         {"seen", seen},
                                         {"faulty", awaited_look},
                                         {"sound", awaited_look},
                                         {"unsure", awaited_look},
                                         {"unreached", awaited_look},
                                         {"cover", cover},
                                         {"unplugged", unplugged},
                                         {"plugged", plugged},
                                         {"clip", clip},
                                         {"repair", repair},
                                         {"verified", verified},
                                         {"remark", remark},
                                         {"pause", pause},
                                         {"resume", resume},
                                         {"close", close},
                                         {"undo", undo},
                                         {"amend", amend},
                                         {"meter", meter},
                                         {"pins", pins},
                                         {"differs", differs}}};

// Standing alone, these two could be a beep and the end of the job, or the absence of a beep and an ohm
// figure.
bool has_two_meanings(const std::string& word) {
    return word == "open" || word == "closed";
}

std::string advice_for(const std::string& word, const harness::Harness& harness) {
    if (word == "closed") return "Type c for a beep, or close to end the job.";
    if (word == "open") return "Type o for no beep, or OL for ohms over the range.";
    return fmt::format("For example: reading {} clip 0.4", example_terminal(harness));
}

[[noreturn]] void refuse_first_word(Input& input, const Context& context) {
    const std::string expected = "a value, or one of " + join_words(event_words());
    const std::string word = input.take(expected, advice_for("", context.harness));
    input.refuse_last({"event-word-unknown", fmt::format("no entry begins with '{}'", word), expected,
                       nearest_name(word, event_words()), advice_for(lower(word), context.harness)});
}

}  // namespace

Event parse_entry(Input& input, const Context& context) {
    const std::string word = lower(input.peek());
    if (looks_like_value(word) && !has_two_meanings(word)) return {awaited_reading(input, context), {}};
    for (const Entry& entry : entries) {
        if (word == entry.word) return {entry.parse(input, context), {}};
    }
    refuse_first_word(input, context);
}

Event parse_event(const std::vector<std::string>& words, const harness::Harness& harness, const State& state,
                  const Expectation& expectation) {
    Input input(words);
    const bool live_bus = state.safe_state && !state.safe_state->battery_off;
    const bool dead_bus = circuit_now(state).battery_off;
    Event event = parse_entry(input, {harness, state, expectation, live_bus, dead_bus, state.apart, false});
    // The minutes of an amend belong to the record that it amends.
    if (!std::holds_alternative<Amend>(event.body)) event.minutes = input.minutes();
    return event;
}

const std::vector<std::string>& event_words() {
    static const std::vector<std::string> words = [] {
        std::vector<std::string> all;
        all.reserve(entries.size());
        for (const Entry& entry : entries) all.emplace_back(entry.word);
        return all;
    }();
    return words;
}

}  // namespace halfsplit::job
