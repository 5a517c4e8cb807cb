#include "cli/review_shop.hpp"

#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/advice/shop.hpp"
#include "halfsplit/job/log.hpp"
#include "halfsplit/report/shop_report.hpp"

#include <nlohmann/json.hpp>

#include "base/parallel.hpp"
#include "cli/fleet/gather.hpp"
#include "cli/put_json.hpp"
#include "cli/read_job.hpp"

#include <optional>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct ReadJob {
    std::optional<advice::ShopJob> job;
    std::string problem;
};

std::string first_words(const InputError& error) {
    return error.findings().empty() ? error.what() : error.findings().front().message;
}

ReadJob read_one(const Input& input, Context& context) {
    if (input.trouble) return {std::nullopt, input.trouble->message};
    try {
        const job::Contents contents =
            job::read_log(read_input(context.files, input.path, job::largest_log), input.path);
        const advice::Subject subject = advice::subject_of(contents.records);
        const advice::Review review = advice::retrospect(contents.records, subject.harness, subject.network);
        return {advice::shop_job(shown_name(input.path), review, subject.harness, subject.network), ""};
    } catch (const InputError& error) {
        return {std::nullopt, first_words(error)};
    } catch (const std::runtime_error& error) {  // a log that is damaged, a file that cannot be read
        return {std::nullopt, error.what()};
    }
}

}  // namespace

int review_shop(const ShopOptions& options, Context& context) {
    const Gathered gathered = gather(context.files, options.paths, {}, {".job", "saved job"});
    std::vector<ReadJob> read(gathered.inputs.size());
    for_each_index(read.size(), options.threads,
                   [&](std::size_t i) { read[i] = read_one(gathered.inputs[i], context); });
    std::vector<advice::ShopJob> jobs;
    report::Unread unread;
    for (std::size_t i = 0; i < read.size(); ++i) {
        if (read[i].job) {
            jobs.push_back(std::move(*read[i].job));
        } else {
            unread.emplace_back(shown_name(gathered.inputs[i].path), read[i].problem);
        }
    }
    const advice::Shop shop = advice::shop(std::move(jobs));
    if (options.json) {
        put_json(context.out, report::shop_json(shop, unread));
    } else if (options.csv) {
        context.out << report::shop_csv(shop, unread);
    } else {
        context.out << report::shop_text(shop, unread, options.columns);
    }
    return unread.empty() ? Exit::fine : Exit::unusable;
}

}  // namespace halfsplit::cli
