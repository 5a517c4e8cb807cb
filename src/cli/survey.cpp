#include "halfsplit/advice/survey.hpp"

#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/matrix/survey.hpp"
#include "halfsplit/report/left_report.hpp"
#include "halfsplit/report/matrix_report.hpp"
#include "halfsplit/report/rules_report.hpp"
#include "halfsplit/report/survey_report.hpp"
#include "halfsplit/session/session.hpp"

#include <nlohmann/json.hpp>

#include "cli/aim_options.hpp"
#include "cli/commands.hpp"
#include "cli/fleet/survey_inputs.hpp"
#include "cli/put_json.hpp"
#include "cli/read_job.hpp"

#include <memory>
#include <numeric>
#include <ostream>
#include <utility>
#include <vector>

namespace halfsplit::cli {

namespace {

struct SurveyOptions {
    std::vector<std::string> harnesses;
    std::string network, matrix, job, format;
    std::size_t threads = 0;
    AimOptions aim;
    std::size_t columns = 0;
    bool json = false, card = false, rules = false;
};

std::size_t columns_of(const SurveyOptions& options, const Context& context) {
    return options.columns > 0 ? options.columns : context.terminal.columns();
}

nlohmann::json with_rules(nlohmann::json out, const std::vector<plan::ByRule>& rules) {
    if (!rules.empty()) out["rules"] = report::rules_json(rules);
    return out;
}

int survey_matrix(const SurveyOptions& options, Context& context) {
    auto read = matrix::read_matrix_file(context.files, options.matrix);
    if (!read.matrix) throw InputError(read.findings);
    const advice::Aim aim = options.aim.aim().value_or(advice::Aim{});
    if (aim.isolate) read.matrix->problem.bare.clear();
    const matrix::Survey surveyed =
        matrix::survey(*read.matrix, {.least_worst = aim.least_worst, .worst_at_most = aim.worst_at_most});
    std::vector<plan::ByRule> rules;
    if (options.rules) rules = plan::beside_rules(read.matrix->problem, surveyed.policy.solution.best);
    if (options.json) {
        put_json(context.out, with_rules(report::matrix_json(*read.matrix, surveyed), rules));
    } else if (options.card) {
        context.out << report::matrix_card(*read.matrix, surveyed, columns_of(options, context));
    } else {
        context.out << report::matrix_text(options.matrix, *read.matrix, surveyed,
                                           columns_of(options, context))
                    << report::rules_text("", rules, columns_of(options, context));
    }
    return Exit::fine;
}

int survey_job(const SurveyOptions& options, Context& context) {
    const job::Contents contents = read_job(context, options.job);
    const advice::Subject subject = advice::subject_of(contents.records);
    advice::Advisor advisor(subject.harness, subject.network);
    const job::State state = job::replay(contents.records);
    const advice::Aim aim = options.aim.aim().value_or(advice::Aim{});
    const advice::Left left = advisor.left(state, aim);
    std::vector<plan::ByRule> rules;
    if (options.rules) rules = advisor.beside_rules(state, aim);
    if (options.json) {
        put_json(context.out, with_rules(report::left_json(options.job, left), rules));
    } else {
        context.out << report::left_text(options.job, left, columns_of(options, context))
                    << report::rules_text("", rules, columns_of(options, context));
    }
    return Exit::fine;
}

std::vector<harness::Index> chosen_networks(const SurveyOptions& options, const harness::Harness& harness) {
    if (!options.network.empty())
        return {session::chosen_network(harness, options.network, options.harnesses.front())};
    std::vector<harness::Index> all(harness.networks.size());
    std::iota(all.begin(), all.end(), 0);
    return all;
}

int survey_harness(const SurveyOptions& options, Context& context) {
    const std::string& path = options.harnesses.front();
    const auto read = harness::read_harness_file(context.files, path, nullptr, context.include);
    if (!read.harness) throw InputError(read.findings);
    const harness::Harness& harness = *read.harness;
    const advice::Aim aim = options.aim.aim().value_or(advice::Aim{});
    const std::vector<harness::Index> chosen = chosen_networks(options, harness);
    std::vector<advice::Survey> networks;
    std::vector<std::vector<plan::ByRule>> rules(chosen.size());
    for (std::size_t i = 0; i < chosen.size(); ++i) {
        networks.push_back(advice::survey(harness, chosen[i], aim));
        if (options.rules) rules[i] = advice::Advisor(harness, chosen[i]).beside_rules({}, aim);
    }
    if (options.json) {
        nlohmann::json out = report::survey_json(path, networks);
        for (std::size_t i = 0; i < chosen.size(); ++i)
            out["networks"][i] = with_rules(out["networks"][i], rules[i]);
        put_json(context.out, out);
    } else {
        context.out << report::survey_text(networks, columns_of(options, context));
        for (std::size_t i = 0; i < chosen.size(); ++i)
            context.out << report::rules_text(networks[i].network, rules[i], columns_of(options, context));
    }
    return Exit::fine;
}

int survey_rows(const SurveyOptions& options, Context& context) {
    return survey_many({options.harnesses, options.format, options.network,
                        options.aim.aim().value_or(advice::Aim{}), options.threads},
                       context);
}

// Said here and not to the parser, whose help would list what excludes what in no order.
void check_together(const SurveyOptions& options) {
    const bool harnesses = !options.harnesses.empty();
    const std::vector<std::pair<std::string, bool>> subjects{
        {"HARNESS", harnesses}, {"--job", !options.job.empty()}, {"--matrix", !options.matrix.empty()}};
    std::string chosen;
    for (const auto& [name, given] : subjects) {
        if (given && !chosen.empty()) throw CLI::ExcludesError(name, chosen);
        if (given) chosen = name;
    }
    if (chosen.empty()) throw CLI::RequiredError("HARNESS, --job FILE or --matrix FILE");
    if (chosen != "HARNESS" && !options.network.empty()) throw CLI::ExcludesError(chosen, "--network");
    if (options.card && chosen != "--matrix") throw CLI::RequiresError("--card", "--matrix");
    if (options.card && options.json) throw CLI::ExcludesError("--card", "--json");
    if (options.card && options.rules) throw CLI::ExcludesError("--card", "--rules");
    if (!options.format.empty() && options.rules) throw CLI::ExcludesError("--format", "--rules");
    if (!options.format.empty() && chosen != "HARNESS") throw CLI::ExcludesError(chosen, "--format");
    if (!options.format.empty() && options.json) throw CLI::ExcludesError("--format", "--json");
    const bool several = options.harnesses.size() > 1;
    if (several && options.format.empty())
        throw CLI::RequiredError("--format csv or json, for several files:");
}

}  // namespace

void add_survey(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<SurveyOptions>();
    CLI::App* command =
        program.add_subcommand("survey", "how well can faults in it be told apart, and at what cost?");
    command->add_option("HARNESS", options->harnesses, "harness file; many with --format")
        ->type_name(".json");
    command->add_option("--format", options->format, "a row for each network")
        ->check(CLI::IsMember({"csv", "json"}))
        ->option_text("csv|json");
    command->add_option("-j", options->threads, "threads, with --format")->check(CLI::Range(1, 256));
    command->add_option("--network", options->network, "which bus of the file (default: each)");
    command->add_option("--job", options->job, "instead of HARNESS: what is left of this job")
        ->type_name("FILE.job");
    command->add_option("--matrix", options->matrix, "faults against tests (docs/reference/matrix.md)")
        ->type_name("FILE.json");
    options->aim.add_to(*command);
    command->add_option("--columns", options->columns, "width of the text")
        ->check(CLI::Range(30, 400))
        ->option_text("30 to 400");
    command->add_flag("--json", options->json, "as data (schemas: docs/schema/survey*.schema.json)");
    command->add_flag("--card", options->card, "the plan of the matrix as a tree");
    command->add_flag("--rules", options->rules, "also: what hunts by rule of thumb would take");
    command->footer(
        "Terms: docs/reference/survey.md. Examples:\n  halfsplit survey minibus.json --network body\n"
        "  halfsplit survey designs --format csv");
    command->callback([options, &context, &chosen] {
        check_together(*options);
        chosen = [options, &context] {
            if (!options->job.empty()) return survey_job(*options, context);
            if (!options->format.empty()) return survey_rows(*options, context);
            return options->matrix.empty() ? survey_harness(*options, context)
                                           : survey_matrix(*options, context);
        };
    });
}

}  // namespace halfsplit::cli
