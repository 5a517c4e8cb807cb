// What is known of the vehicle: the complaint, whether it is safe, who answers, and how it stands after the
// repair.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "entries.hpp"
#include "keys.hpp"
#include "names.hpp"
#include "value.hpp"

#include <algorithm>

namespace halfsplit::job {

Body intake(Input& input, const Context& context) {
    Keys keys(input, {"complaint", "conditions", "recent", "replaced"},
              "For example: intake complaint=no crank conditions=wet,cold");
    Intake intake = context.state.intake.value_or(Intake{});
    while (keys.next()) {
        if (keys.name() == "complaint") intake.complaint = keys.value();
        if (keys.name() == "recent") intake.recent_work = keys.value();
        if (keys.name() == "conditions") intake.conditions = keys.list();
        if (keys.name() == "replaced") intake.replaced = keys.list();
    }
    return intake;
}

Body safe(Input& input, const Context& context) {
    Keys keys(input, {"ignition", "bus", "battery", "waited"},
              "For example: safe ignition=off bus=asleep battery=off waited=10");
    SafeState safe = context.state.safe_state.value_or(SafeState{});
    while (keys.next()) {
        if (keys.name() == "ignition") safe.ignition_off = keys.either("off", "on");
        if (keys.name() == "bus") safe.bus_asleep = keys.either("asleep", "awake");
        if (keys.name() == "battery") safe.battery_off = keys.either("off", "on");
        if (keys.name() == "waited")
            safe.waited_minutes = number_in(input, keys.value(), most_minutes, "waited=10");
    }
    return safe;
}

Body verified(Input& input, const Context& context) {
    Keys keys(input, {"hl", "answers", "codes", "complaint"},
              "For example: verified hl=60.2 answers=all codes=clear complaint=gone");
    Verified verified = context.state.verified.value_or(Verified{});
    while (keys.next()) {
        if (keys.name() == "hl")
            verified.h_to_l_ohm = ohms_in(input, keys.value(), "ohms from H to L, like hl=60.2");
        if (keys.name() == "answers") verified.all_answer = keys.either("all", "some");
        if (keys.name() == "codes") verified.codes_clear = keys.either("clear", "stored");
        if (keys.name() == "complaint") verified.complaint_gone = keys.either("gone", "back");
    }
    return verified;
}

namespace {

using Modules = std::vector<std::string>;

constexpr const char* answers_example = "For example: answers all, or answers M1,M2 silent M3";

bool names(const Modules& modules, const std::string& module) {
    return std::find(modules.begin(), modules.end(), module) != modules.end();
}

// The words up to `silent` or the end, each one module or several between commas.
Modules take_modules(Input& input, const Modules& known) {
    Modules named;
    while (!input.done() && lower(input.peek()) != "silent") {
        std::string word = input.take();
        std::replace(word.begin(), word.end(), ',', ' ');
        for (const std::string& each : split_words(word)) {
            const std::string module = module_named(input, each, known);
            if (!names(named, module)) named.push_back(module);
        }
    }
    return named;
}

Modules all_but(const Modules& modules, const Modules& named) {
    Modules rest;
    for (const std::string& module : modules) {
        if (!names(named, module)) rest.push_back(module);
    }
    return rest;
}

Modules known_modules(const Context& context) {
    return modules_of(context.harness, network_of(context.harness, context.state.opened.network));
}

// `silent` and the modules behind it, if that is what comes next.
std::optional<Modules> take_silent(Input& input, const Modules& known) {
    if (lower(input.peek()) != "silent") return std::nullopt;
    input.take();
    if (input.done()) input.take("the modules that do not answer", answers_example);
    Modules silent = take_modules(input, known);
    input.require_done("the silent modules");
    return silent;
}

void require_each_once(const Input& input, const Answers& answers) {
    for (const std::string& module : answers.silent) {
        if (!names(answers.answering, module)) continue;
        input.refuse_last({"event-not-possible",
                           fmt::format("{} is named as answering and as silent", module), "each module once",
                           "", answers_example});
    }
}

}  // namespace

Body answers(Input& input, const Context& context) {
    input.take();
    const Modules known = known_modules(context);
    const std::string first = lower(input.peek());
    std::optional<Modules> answering;
    if (first == "all" || first == "none") {
        input.take();
        if (first == "none") answering = Modules{};
    } else if (first != "silent") {
        if (input.done()) input.take("all, none, or the modules that answer", answers_example);
        answering = take_modules(input, known);
    }
    const std::optional<Modules> silent = take_silent(input, known);
    input.require_done("the modules");
    Answers answers;
    answers.answering = answering.value_or(all_but(known, silent.value_or(Modules{})));
    answers.silent = silent.value_or(all_but(known, answers.answering));
    require_each_once(input, answers);
    return answers;
}

// `silent M3` is short for `answers silent M3`.
Body silent(Input& input, const Context& context) {
    const Modules known = known_modules(context);
    const Modules silent = take_silent(input, known).value_or(Modules{});
    return Answers{all_but(known, silent), silent};
}

}  // namespace halfsplit::job
