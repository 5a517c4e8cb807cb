#include "cli/aim_options.hpp"
#include "cli/commands.hpp"
#include "cli/conversation.hpp"
#include "cli/job_options.hpp"

#include <memory>

namespace halfsplit::cli {

namespace {

struct HuntOptions {
    JobOptions job;
    AimOptions aim;
    bool no_bell = false, spoken = false;
};

}  // namespace

void add_hunt(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<HuntOptions>();
    CLI::App* command =
        program.add_subcommand("hunt", "the conversation at the van: from complaint to proven repair");
    options->job.add_to(*command);
    options->aim.add_to(*command);
    command->add_flag("--spoken", options->spoken, "each step as one line to be read out");
    command->add_flag("--no-bell", options->no_bell, "no bell for an entry (two: it does not fit)");
    command->footer(
        "One key or a bare number answers a prompt; everything is saved before the next one.\n"
        "Examples:\n  halfsplit hunt minibus.json --job monday.job\n"
        "  halfsplit hunt minibus.json --network drive --job tuesday.job --columns 40");
    command->callback([options, &context, &chosen] {
        chosen = [options, &context] {
            session::Opening opening = options->job.opening;
            opening.aim = options->aim.aim();
            opening.include = context.include;
            session::Session session(context.files, context.clock, opening);
            const Manner manner{options->job.columns, !options->no_bell, options->spoken};
            Conversation(session, context, manner).run();
            return static_cast<int>(Exit::fine);
        };
    });
}

}  // namespace halfsplit::cli
