#include "halfsplit/base/text.hpp"
#include "halfsplit/job/event_json.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/job_options.hpp"
#include "cli/put_json.hpp"

#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct NoteOptions {
    JobOptions job;
    std::vector<std::string> words;
    bool json = false;
};

nlohmann::json as_json(const std::vector<job::Record>& records, const harness::Harness& harness) {
    nlohmann::json list = nlohmann::json::array();
    for (const job::Record& record : records) {
        list.push_back({{"sequence", record.sequence},
                        {"time", format_time(record.time)},
                        {"event", job::to_json(record.event)},
                        {"in_words", job::in_words(record.event, harness)}});
    }
    return {{"recorded", std::move(list)}};
}

int note(const NoteOptions& options, Context& context) {
    session::Opening opening = options.job.opening;
    opening.include = context.include;
    session::Session session(context.files, context.clock, opening);
    for (const std::string& notice : session.notices()) context.err << notice << '\n';
    const std::vector<job::Record> written = session.enter(session.parse(options.words));
    if (options.json) {
        put_json(context.out, as_json(written, session.harness()));
        return Exit::fine;
    }
    const std::size_t width = options.job.width(context.terminal.columns());
    for (const job::Record& record : written) {
        const std::string line =
            fmt::format("{:>4}  {}", record.sequence, job::in_words(record.event, session.harness()));
        context.out << wrap(line, width, 6) << '\n';
    }
    return Exit::fine;
}

}  // namespace

void add_note(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<NoteOptions>();
    CLI::App* command = program.add_subcommand("note", "write one reading or event into a job");
    options->job.add_to(*command);
    command
        ->add_option("EVENT", options->words,
                     "the event in words, as at the prompt of hunt (see docs/reference/job-format.md)")
        ->required();
    command->add_flag("--json", options->json,
                      "what was recorded, as data (schema: docs/schema/note.schema.json)");
    command->footer(
        "Examples:\n  halfsplit note minibus.json --job monday.job 0.4\n"
        "  halfsplit note minibus.json --job monday.job reading X4.a:3 clip OL\n"
        "Put -- before an event that starts with a dash: -- - (could not reach).");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return note(*options, context); }; });
}

}  // namespace halfsplit::cli
