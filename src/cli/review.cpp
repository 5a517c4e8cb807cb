#include "halfsplit/report/review.hpp"

#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/base/file_error.hpp"

#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/read_job.hpp"

#include <algorithm>
#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct ReviewOptions {
    std::string job, html;
    bool json = false;
    std::size_t columns = 0;
};

// The page may not take the place of the job.
void check_not_the_job(const ReviewOptions& options, Context& context) {
    if (!context.files.exists(options.html)) return;
    if (context.files.resolved(options.html) != context.files.resolved(options.job)) return;
    throw FileError(FileError::Kind::Failed,
                    options.html + " is the job itself: name another file behind --html");
}

int review(const ReviewOptions& options, Context& context) {
    if (!options.html.empty()) check_not_the_job(options, context);
    const job::Contents contents = read_job(context, options.job);
    const advice::Subject subject = advice::subject_of(contents.records);
    const advice::Review review = advice::retrospect(contents, subject);
    if (!options.html.empty())
        context.files.write(options.html, report::review_html(review, subject.harness, subject.network));
    if (options.json) {
        context.out << report::review_json(review).dump(2) << '\n';
    } else if (options.html.empty()) {
        const std::size_t columns = options.columns > 0 ? options.columns : context.terminal.columns();
        context.out << report::review_text(review, std::max<std::size_t>(columns, 30));
    } else {
        context.out << "review written to " << options.html << '\n';
    }
    return Exit::fine;
}

}  // namespace

void add_review(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<ReviewOptions>();
    CLI::App* command = program.add_subcommand("review", "a saved job, for the lead");
    command->add_option("FILE", options->job, "job log")->required();
    command->add_option("--columns", options->columns, "width of the text (default: the terminal's)")
        ->check(CLI::Range(30, 400));
    command->add_option("--html", options->html, "write it to this file, as a page to read and print");
    command->add_flag("--json", options->json, "as data (schema: docs/schema/review.schema.json)");
    command->footer(
        "Reads only: nothing is planned, the job stays as it is.\n"
        "What is on the page: docs/review.md\n"
        "Examples:\n  halfsplit review monday.job\n  halfsplit review monday.job --html monday.html");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return review(*options, context); }; });
}

}  // namespace halfsplit::cli
