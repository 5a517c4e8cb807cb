#include "halfsplit/advice/survey.hpp"

#include "halfsplit/harness/read.hpp"
#include "halfsplit/matrix/survey.hpp"
#include "halfsplit/report/matrix_report.hpp"
#include "halfsplit/report/survey_report.hpp"
#include "halfsplit/session/session.hpp"

#include <nlohmann/json.hpp>

#include "cli/commands.hpp"

#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct SurveyOptions {
    std::string harness, network, matrix;
    std::size_t columns = 0;
    bool json = false, card = false;
};

std::size_t columns_of(const SurveyOptions& options, const Context& context) {
    return options.columns > 0 ? options.columns : context.terminal.columns();
}

int survey_matrix(const SurveyOptions& options, Context& context) {
    const auto read = matrix::read_matrix_file(context.files, options.matrix);
    if (!read.matrix) throw InputError(read.findings);
    const matrix::Survey surveyed = matrix::survey(*read.matrix);
    if (options.json) {
        context.out << report::matrix_json(*read.matrix, surveyed).dump(2) << '\n';
    } else if (options.card) {
        context.out << report::matrix_card(*read.matrix, surveyed, columns_of(options, context));
    } else {
        context.out << report::matrix_text(options.matrix, *read.matrix, surveyed,
                                           columns_of(options, context));
    }
    return Exit::fine;
}

int survey_harness(const SurveyOptions& options, Context& context) {
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
        context.out << report::survey_text(networks, columns_of(options, context));
    }
    return Exit::fine;
}

// Said here and not to the parser, whose help would list what excludes what in no order.
void check_together(const SurveyOptions& options) {
    const bool harness = !options.harness.empty(), matrix = !options.matrix.empty();
    if (!harness && !matrix) throw CLI::RequiredError("HARNESS, or --matrix FILE,");
    if (harness && matrix) throw CLI::ExcludesError("--matrix", "HARNESS");
    if (matrix && !options.network.empty()) throw CLI::ExcludesError("--matrix", "--network");
    if (options.card && !matrix) throw CLI::RequiresError("--card", "--matrix");
    if (options.card && options.json) throw CLI::ExcludesError("--card", "--json");
}

}  // namespace

void add_survey(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<SurveyOptions>();
    CLI::App* command =
        program.add_subcommand("survey", "how well can faults in it be told apart, and at what cost?");
    command->add_option("HARNESS", options->harness, "harness file (JSON)");
    command->add_option("--network", options->network, "which bus of the file (default: each)");
    command->add_option("--matrix", options->matrix,
                        "instead of a harness: faults against tests (docs/matrix.md)");
    command->add_option("--columns", options->columns, "width of the text (default: the terminal's)")
        ->check(CLI::Range(30, 400));
    command->add_flag("--json", options->json, "as data (schemas: docs/schema/survey*.schema.json)");
    command->add_flag("--card", options->card, "the plan of the matrix as a tree");
    command->footer(
        "Terms and what is counted: docs/survey.md\n"
        "Examples:\n  halfsplit survey minibus.json --network body\n"
        "  halfsplit survey --matrix faults.json --card");
    command->callback([options, &context, &chosen] {
        check_together(*options);
        chosen = [options, &context] {
            return options->matrix.empty() ? survey_harness(*options, context)
                                           : survey_matrix(*options, context);
        };
    });
}

}  // namespace halfsplit::cli
