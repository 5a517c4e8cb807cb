#include "halfsplit/advice/survey.hpp"

#include "halfsplit/harness/read.hpp"
#include "halfsplit/report/survey_report.hpp"
#include "halfsplit/session/session.hpp"

#include <nlohmann/json.hpp>

#include "cli/commands.hpp"

#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct SurveyOptions {
    std::string harness, network;
    std::size_t columns = 0;
    bool json = false;
};

int survey(const SurveyOptions& options, Context& context) {
    const auto read = harness::read_harness_file(context.files, options.harness);
    if (!read.harness) throw InputError(read.findings);
    const harness::Harness& harness = *read.harness;
    std::vector<advice::Survey> networks;
    if (!options.network.empty()) {
        networks.push_back(
            advice::survey(harness, session::chosen_network(harness, options.network, options.harness)));
    } else {
        for (harness::Index network = 0; network < harness.networks.size(); ++network)
            networks.push_back(advice::survey(harness, network));
    }
    if (options.json) {
        context.out << report::survey_json(options.harness, networks).dump(2) << '\n';
    } else {
        const std::size_t columns = options.columns > 0 ? options.columns : context.terminal.columns();
        context.out << report::survey_text(networks, columns);
    }
    return Exit::fine;
}

}  // namespace

void add_survey(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<SurveyOptions>();
    CLI::App* command =
        program.add_subcommand("survey", "how well can faults in it be told apart, and at what cost?");
    command->add_option("HARNESS", options->harness, "harness file (JSON)")->required();
    command->add_option("--network", options->network, "which bus of the file (default: each)");
    command->add_option("--columns", options->columns, "width of the text (default: the terminal's)")
        ->check(CLI::Range(30, 400));
    command->add_flag("--json", options->json, "as data (schema: docs/schema/survey.schema.json)");
    command->footer(
        "Terms and what is counted: docs/survey.md\n"
        "Examples:\n  halfsplit survey minibus.json --network body\n  halfsplit survey minibus.json --json");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return survey(*options, context); }; });
}

}  // namespace halfsplit::cli
