// The commands: each file adds its own to the parser and says what running it means.
#pragma once

#include "halfsplit/cli/run.hpp"

#include <CLI/CLI.hpp>

#include <functional>

namespace halfsplit::cli {

// What the parser found to be run; called after parsing.
using Chosen = std::function<int()>;

void add_card(CLI::App& program, Context& context, Chosen& chosen);
void add_check(CLI::App& program, Context& context, Chosen& chosen);
void add_draft(CLI::App& program, Context& context, Chosen& chosen);
void add_draw(CLI::App& program, Context& context, Chosen& chosen);
void add_expect(CLI::App& program, Context& context, Chosen& chosen);
void add_hunt(CLI::App& program, Context& context, Chosen& chosen);
void add_next(CLI::App& program, Context& context, Chosen& chosen);
void add_note(CLI::App& program, Context& context, Chosen& chosen);
void add_rehearse(CLI::App& program, Context& context, Chosen& chosen);
void add_review(CLI::App& program, Context& context, Chosen& chosen);
void add_survey(CLI::App& program, Context& context, Chosen& chosen);

}  // namespace halfsplit::cli
