#include "halfsplit/report/review.hpp"

#include "halfsplit/advice/retrospect.hpp"

#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/read_job.hpp"
#include "cli/review_shop.hpp"

#include <algorithm>
#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct ReviewOptions {
    std::vector<std::string> paths;
    bool json = false, csv = false;
    std::size_t columns = 0, threads = 0;
};

int review(const ReviewOptions& options, Context& context) {
    const std::size_t wanted = options.columns > 0 ? options.columns : context.terminal.columns();
    const std::size_t columns = std::max<std::size_t>(wanted, 30);
    const bool shop = options.csv || options.paths.size() > 1 || context.files.is_folder(options.paths[0]);
    if (shop)
        return review_shop({options.paths, options.json, options.csv, options.threads, columns}, context);
    const job::Contents contents = read_job(context, options.paths.front());
    const advice::Review review = advice::retrospect(contents.records);
    if (options.json) {
        context.out << report::review_json(review).dump(2) << '\n';
        return Exit::fine;
    }
    context.out << report::review_text(review, columns);
    return Exit::fine;
}

}  // namespace

void add_review(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<ReviewOptions>();
    CLI::App* command = program.add_subcommand("review", "a saved job, or all of a shop, for the lead");
    command->add_option("FILE", options->paths, "job log; a folder or several: all of them together")
        ->required();
    command->add_option("--columns", options->columns, "width of the text (default: the terminal's)")
        ->check(CLI::Range(30, 400));
    command->add_flag("--json", options->json, "as data (docs/schema/review.schema.json, review-shop)");
    command->add_flag("--csv", options->csv, "all together: a row for each job");
    command->add_option("-j", options->threads, "threads (default: as many as run at once)")
        ->check(CLI::Range(1, 256));
    command->footer(
        "Reads only: nothing is planned, nothing is written.\n"
        "Examples:\n  halfsplit review monday.job\n"
        "  halfsplit review jobs --csv > jobs.csv");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return review(*options, context); }; });
}

}  // namespace halfsplit::cli
