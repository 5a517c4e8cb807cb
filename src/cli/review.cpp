#include "halfsplit/report/review.hpp"

#include "halfsplit/advice/retrospect.hpp"

#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/read_job.hpp"

#include <algorithm>
#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct ReviewOptions {
    std::string job;
    bool json = false;
    std::size_t columns = 0;
};

int review(const ReviewOptions& options, Context& context) {
    const job::Contents contents = read_job(context, options.job);
    const advice::Review review = advice::retrospect(contents.records);
    if (options.json) {
        context.out << report::review_json(review).dump(2) << '\n';
        return Exit::fine;
    }
    const std::size_t columns = options.columns > 0 ? options.columns : context.terminal.columns();
    context.out << report::review_text(review, std::max<std::size_t>(columns, 30));
    return Exit::fine;
}

}  // namespace

void add_review(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<ReviewOptions>();
    CLI::App* command = program.add_subcommand("review", "a saved job, for the lead");
    command->add_option("FILE", options->job, "job log")->required();
    command->add_option("--columns", options->columns, "width of the text (default: the terminal's)")
        ->check(CLI::Range(30, 400));
    command->add_flag("--json", options->json, "as data (schema: docs/schema/review.schema.json)");
    command->footer(
        "Reads only: nothing is planned, nothing is written.\n"
        "Examples:\n  halfsplit review monday.job\n  halfsplit review monday.job --json");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return review(*options, context); }; });
}

}  // namespace halfsplit::cli
