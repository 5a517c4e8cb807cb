#include "cli/commands.hpp"

namespace halfsplit::cli {

void set_up(CLI::App& program, Context& context, Chosen& chosen) {
    program.name("halfsplit");
    program.allow_windows_style_options(false);  // "/a" is a path on every system, and the commands' too
    program.description("Finds the break in a vehicle's data-bus wiring in the least labour.");
    program.set_version_flag("--version", version_text(), "show the version and how it was built");
    program.set_help_flag("-h,--help", "show this text");
    program.add_flag("--include-outside", context.include.outside,
                     "let a harness file include libraries from outside its folder");
    program.fallthrough();
    program.require_subcommand(1);
    program.footer(
        "Each command has a help of its own: halfsplit hunt --help\n"
        "Exit codes: 0 fine, 1 findings, 2 unusable input or command line, 3 own failure.");
    for (const auto add : {add_hunt, add_next, add_note, add_review, add_check, add_survey, add_card,
                           add_draw, add_draft, add_expect, add_rehearse})
        add(program, context, chosen);
}

}  // namespace halfsplit::cli
