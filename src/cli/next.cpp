#include "halfsplit/advice/recommendation_json.hpp"
#include "halfsplit/report/step_text.hpp"

#include <nlohmann/json.hpp>

#include "cli/aim_options.hpp"
#include "cli/commands.hpp"
#include "cli/job_options.hpp"
#include "cli/put_json.hpp"

#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct NextOptions {
    JobOptions job;
    AimOptions aim;
    bool json = false;
};

int next(const NextOptions& options, Context& context) {
    session::Opening opening = options.job.opening;
    opening.aim = options.aim.aim();
    opening.include = context.include;
    session::Session session(context.files, context.clock, opening);
    const advice::Recommendation& advice = session.advise();
    for (const std::string& notice : session.notices()) context.err << notice << '\n';
    if (options.json) {
        put_json(context.out, advice::to_json(advice));
        return Exit::fine;
    }
    const report::Screen screen{options.job.width(context.terminal.columns()), false};
    context.out << report::step_text(advice, session.harness(), session.network(), screen)
                << "next: " << report::prompt_text(advice) << '\n';
    if (const std::string entry = report::note_text(advice); !entry.empty())
        context.out << "note: " << entry << '\n';
    return Exit::fine;
}

}  // namespace

void add_next(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<NextOptions>();
    CLI::App* command = program.add_subcommand("next", "where to probe now, and why");
    options->job.add_to(*command);
    options->aim.add_to(*command);
    command->add_flag("--json", options->json, "as data (schema: docs/schema/next.schema.json)");
    command->footer(
        "Examples:\n  halfsplit next minibus.json --job monday.job\n"
        "  halfsplit next minibus.json --job monday.job --least worst");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return next(*options, context); }; });
}

}  // namespace halfsplit::cli
