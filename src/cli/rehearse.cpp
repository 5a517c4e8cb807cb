#include "halfsplit/base/digest.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/diagnosis/prior.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/job/log.hpp"
#include "halfsplit/report/rehearsal_report.hpp"
#include "halfsplit/session/session.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/put_json.hpp"

#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct RehearseOptions {
    std::string harness, network, job;
    std::vector<std::string> faults;
    bool every = false, list = false, json = false;
    session::PlayOptions play;
    std::size_t columns = 0;
};

// The clock of a rehearsal: it stands at the time of the record being written.
class RehearsalClock : public Clock {
  public:
    UnixSeconds time = 0;
    UnixSeconds now() override { return time; }
};

void save(const session::Played& played, const RehearseOptions& options, const std::string& harness_text,
          const std::string& network, Context& context) {
    if (context.files.exists(options.job)) {
        Finding finding;
        finding.id = "job-exists";
        finding.location.file = options.job;
        finding.message = "a rehearsal is not written into a job that is already there";
        finding.next_step = "name another file with --job";
        throw InputError(finding);
    }
    RehearsalClock clock;
    const UnixSeconds start = context.clock.now();
    clock.time = start;
    job::Log log(context.files, clock, options.job);
    log.append(job::Event{
        job::Opened{options.harness, harness_text, sha256(harness_text), network, HALFSPLIT_VERSION}, {}});
    for (const job::Record& record : played.records) {
        clock.time = start + record.time;
        log.append(record.event);
    }
}

int rehearse_every(session::Rehearsal& rehearsal, const RehearseOptions& options,
                   const harness::Harness& harness, Context& context, std::size_t columns) {
    const std::vector<session::MadeUp> all = rehearsal.faults();
    std::vector<diagnosis::Fault> faults;
    for (const session::MadeUp& one : all) faults.push_back(one.faults.front());
    const std::vector<double> weights = diagnosis::fault_weights(harness, faults);
    std::vector<report::RehearsedFault> rows;
    for (std::size_t i = 0; i < all.size(); ++i) {
        session::PlayOptions play = options.play;
        play.to_the_end = false;
        play.seed += i;
        const session::Played played = rehearsal.play(all[i], play);
        rows.push_back({all[i].name, weights[i], played.found, played.probes, played.looks, played.minutes});
    }
    const report::RehearsalSummary summary = report::summarise(std::move(rows));
    if (options.json) {
        put_json(context.out, report::every_json(summary));
    } else {
        context.out << report::every_text(summary, columns);
    }
    return summary.found == summary.faults.size() ? Exit::fine : Exit::findings;
}

int rehearse(const RehearseOptions& options, Context& context) {
    std::string text;
    auto read = harness::read_harness_file(context.files, options.harness, &text, context.include);
    if (!read.harness) throw InputError(read.findings);
    const harness::Harness& harness = *read.harness;
    const harness::Index network = session::chosen_network(harness, options.network, options.harness);
    const std::size_t columns = options.columns > 0 ? options.columns : context.terminal.columns();
    session::Rehearsal rehearsal(harness, network);
    if (options.list) {
        for (const session::MadeUp& one : rehearsal.faults()) context.out << one.name << '\n';
        return Exit::fine;
    }
    if (options.every) return rehearse_every(rehearsal, options, harness, context, columns);
    const session::MadeUp truth = rehearsal.faults_named(options.faults);
    const session::Played played = rehearsal.play(truth, options.play);
    if (!options.job.empty()) save(played, options, text, harness.networks[network].id, context);
    if (options.json) {
        put_json(context.out, report::played_json(played, truth.name, harness));
    } else {
        context.out << report::played_text(played, truth.name, harness, columns);
    }
    return played.found ? Exit::fine : Exit::findings;
}

}  // namespace

void add_rehearse(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<RehearseOptions>();
    CLI::App* command = program.add_subcommand("rehearse", "play a hunt against a made-up fault");
    command->add_option("HARNESS", options->harness, "harness file (JSON)")->type_name(".json")->required();
    command->add_option("--fault", options->faults, "PART:MODE, as --list shows them; may be given twice")
        ->allow_extra_args(false);
    command->add_flag("--every", options->every, "all single faults, one after the other");
    command->add_flag("--list", options->list, "the names of all single faults");
    command->add_option("--network", options->network, "which bus of the file (default: the first)");
    command->add_option("--job", options->job, "with --fault: write the hunt into this job log")
        ->type_name("FILE.job");
    command->add_option("--seed", options->play.seed, "of the slips (default 1)");
    command->add_option("--slips", options->play.slips, "chance that a probe makes no contact")
        ->check(CLI::Range(0.0, 0.9));
    command->add_option("--wrong-wires", options->play.wrong_wires, "chance of a neighbour's wire")
        ->check(CLI::Range(0.0, 0.9));
    command->add_option("--columns", options->columns, "width of the text")->check(CLI::Range(30, 400));
    command->add_flag("--json", options->json, "as data (schema: docs/schema/rehearse.schema.json)");
    command->footer(
        "Examples:\n  halfsplit rehearse minibus.json --fault X4:apart\n"
        "  halfsplit rehearse minibus.json --every --json");
    command->callback([options, &context, &chosen] {
        // Told here: the parser's own rule would list the others in an order that changes from run to run.
        const int asked =
            (options->faults.empty() ? 0 : 1) + (options->every ? 1 : 0) + (options->list ? 1 : 0);
        if (asked != 1) throw CLI::ValidationError("rehearse", "give one of --fault, --every and --list");
        chosen = [options, &context] { return rehearse(*options, context); };
    });
}

}  // namespace halfsplit::cli
