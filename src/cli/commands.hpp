// The commands: each file adds its own to the parser and says what running it means.
#pragma once

#include "halfsplit/cli/run.hpp"

#include <CLI/CLI.hpp>

#include <functional>
#include <string>

namespace halfsplit::cli {

// What the parser found to be run; called after parsing.
using Chosen = std::function<int()>;

// The whole program: its own options and every command.
void set_up(CLI::App& program, Context& context, Chosen& chosen);

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

// What --version says: the version, how it was built and with what. Nothing that differs from one build to
// the next: no date, no path.
std::string version_text();

}  // namespace halfsplit::cli
