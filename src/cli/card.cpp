#include "halfsplit/advice/card.hpp"

#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/report/card_report.hpp"
#include "halfsplit/session/session.hpp"

#include <nlohmann/json.hpp>

#include "cli/aim_options.hpp"
#include "cli/commands.hpp"
#include "cli/put_json.hpp"
#include "cli/read_job.hpp"

#include <memory>
#include <ostream>
#include <string>

namespace halfsplit::cli {

namespace {

struct CardOptions {
    std::string harness, network, job, html, paper = "a4";
    AimOptions aim;
    std::size_t columns = 0;
    bool json = false;
};

advice::Card card_of_job(const CardOptions& options, Context& context) {
    const job::Contents contents = read_job(context, options.job);
    const advice::Subject subject = advice::subject_of(contents.records);
    advice::Advisor advisor(subject.harness, subject.network);
    return advisor.card(job::replay(contents.records), options.aim.aim().value_or(advice::Aim{}));
}

advice::Card card_of_harness(const CardOptions& options, Context& context) {
    const auto read = harness::read_harness_file(context.files, options.harness, nullptr, context.include);
    if (!read.harness) throw InputError(read.findings);
    return advice::card(*read.harness,
                        session::chosen_network(*read.harness, options.network, options.harness),
                        options.aim.aim().value_or(advice::Aim{}));
}

int print_card(const CardOptions& options, Context& context) {
    const bool of_job = !options.job.empty();
    const std::string& subject = of_job ? options.job : options.harness;
    const report::Paper paper = options.paper == "letter" ? report::Paper::Letter : report::Paper::A4;
    const advice::Card card = report::fitted(
        of_job ? card_of_job(options, context) : card_of_harness(options, context), subject, paper);
    if (!options.html.empty()) context.files.write(options.html, report::card_html(card, subject, paper));
    if (options.json) {
        put_json(context.out, report::card_json(card, subject, paper));
    } else if (options.html.empty()) {
        context.out << report::card_text(card, subject,
                                         options.columns > 0 ? options.columns : context.terminal.columns());
    } else {
        context.out << "card written to " << options.html << ": one sheet of "
                    << (paper == report::Paper::A4 ? "A4" : "Letter") << '\n';
    }
    return Exit::fine;
}

void check_one_subject(const CardOptions& options) {
    if (options.harness.empty() && options.job.empty()) throw CLI::RequiredError("HARNESS or --job FILE");
    if (!options.harness.empty() && !options.job.empty()) throw CLI::ExcludesError("--job", "HARNESS");
    if (!options.job.empty() && !options.network.empty()) throw CLI::ExcludesError("--job", "--network");
}

}  // namespace

void add_card(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<CardOptions>();
    CLI::App* command = program.add_subcommand("card", "the whole plan on paper, on one sheet");
    command->add_option("HARNESS", options->harness, "harness file (JSON)")->type_name(".json");
    command->add_option("--network", options->network, "which bus of the file (default: the first)");
    command->add_option("--job", options->job, "instead of HARNESS: what is left of this job")
        ->type_name("FILE.job");
    options->aim.add_to(*command);
    command->add_option("--paper", options->paper, "that it has to fit; a4 by default")
        ->check(CLI::IsMember({"a4", "letter"}));
    command->add_option("--html", options->html, "write it to this file, for print")->type_name("FILE.html");
    command->add_option("--columns", options->columns, "width of the text (default: the terminal's)")
        ->check(CLI::Range(30, 400));
    command->add_flag("--json", options->json, "as data (schema: docs/schema/card.schema.json)");
    command->footer(
        "What is on it: docs/reference/card.md\n"
        "Examples:\n  halfsplit card minibus.json --html card.html --paper letter\n"
        "  halfsplit card --job monday.job");
    command->callback([options, &context, &chosen] {
        check_one_subject(*options);
        chosen = [options, &context] { return print_card(*options, context); };
    });
}

}  // namespace halfsplit::cli
