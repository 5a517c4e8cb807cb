#include "halfsplit/report/review.hpp"

#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/base/file_error.hpp"
#include "halfsplit/base/text.hpp"

#include <nlohmann/json.hpp>

#include "base/paths.hpp"
#include "cli/commands.hpp"
#include "cli/put_json.hpp"
#include "cli/read_job.hpp"
#include "cli/review_shop.hpp"

#include <algorithm>
#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct ReviewOptions {
    std::vector<std::string> paths;
    std::string html;
    bool json = false, csv = false;
    std::size_t columns = 0, threads = 0;
};

// The page may not take the place of the job.
void check_not_the_job(const std::string& job, const std::string& html, Context& context) {
    if (!same_file(context.files, job, html)) return;
    throw FileError(FileError::Kind::Failed, html + " is the job itself: name another file behind --html");
}

int review_one(const ReviewOptions& options, std::size_t columns, Context& context) {
    const std::string& path = options.paths.front();
    if (!options.html.empty()) check_not_the_job(path, options.html, context);
    const job::Contents contents = read_job(context, path);
    const advice::Subject subject = advice::subject_of(contents.records);
    const advice::Review review = advice::retrospect(contents, subject);
    if (!options.html.empty())
        context.files.write(options.html, report::review_html(review, subject.harness, subject.network));
    if (options.json) {
        put_json(context.out, report::review_json(review));
    } else if (options.html.empty()) {
        context.out << report::review_text(review, columns);
    } else {
        context.out << "review written to " << printable(options.html) << '\n';
    }
    return Exit::fine;
}

int review(const ReviewOptions& options, Context& context) {
    const std::size_t wanted = options.columns > 0 ? options.columns : context.terminal.columns();
    const std::size_t columns = std::max<std::size_t>(wanted, 30);
    const bool shop = options.csv || options.paths.size() > 1 || context.files.is_folder(options.paths[0]);
    if (!shop) return review_one(options, columns, context);
    if (!options.html.empty())
        throw FileError(FileError::Kind::Failed, "--html is for the page of one job: name one job file");
    return review_shop({options.paths, options.json, options.csv, options.threads, columns}, context);
}

}  // namespace

void add_review(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<ReviewOptions>();
    CLI::App* command = program.add_subcommand("review", "a saved job, or all of a shop, for the lead");
    command->add_option("FILE", options->paths, "job log; a folder or several: all of them together")
        ->type_name(".job")
        ->required();
    command->add_option("--columns", options->columns, "width of the text (default: the terminal's)")
        ->check(CLI::Range(30, 400));
    command->add_option("--html", options->html, "of one job: write it to this file, as a page")
        ->type_name("FILE.html");
    command->add_flag("--json", options->json, "as data (docs/schema/review.schema.json, review-shop)");
    command->add_flag("--csv", options->csv, "all together: a row for each job");
    command->add_option("-j", options->threads, "threads (default: as many as run at once)")
        ->check(CLI::Range(1, 256));
    command->footer(
        "Reads only: nothing is planned, jobs stay as they are. What is on the page: "
        "docs/reference/review.md\n"
        "Examples:\n  halfsplit review monday.job --html monday.html\n"
        "  halfsplit review jobs --csv > jobs.csv");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return review(*options, context); }; });
}

}  // namespace halfsplit::cli
