#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/advice/expectation.hpp"
#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/advice/tip_names.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/job/log.hpp"
#include "halfsplit/report/expectation_report.hpp"
#include "halfsplit/session/rehearsal.hpp"
#include "halfsplit/session/session.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/put_json.hpp"

#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

using harness::Harness;
using harness::Index;
using harness::none;

struct ExpectOptions {
    std::string harness, network, job, state = "off";
    std::vector<std::string> tips, apart, faults;
    bool table = false, netlist = false, json = false;
    std::size_t columns = 0;
};

// What the question is about: a harness file, or a job on its own copy of one.
struct Asked {
    Harness harness;
    Index network = 0;
    job::State state;  // of the job; as if nothing had been done, where there is none
};

Asked without_job(const ExpectOptions& options, Context& context) {
    auto read = harness::read_harness_file(context.files, options.harness, nullptr, context.include);
    if (!read.harness) throw InputError(read.findings);
    Asked question{.harness = std::move(*read.harness)};
    const Index named = advice::network_of_tips(question.harness, options.tips);
    question.network = options.network.empty() && named != none
                           ? named
                           : session::chosen_network(question.harness, options.network, options.harness);
    return question;
}

[[noreturn]] void refuse(std::string id, std::string where, std::string message, std::string next_step) {
    Finding finding;
    finding.id = std::move(id);
    finding.location.file = std::move(where);
    finding.message = std::move(message);
    finding.next_step = std::move(next_step);
    throw InputError(finding);
}

// Reads only: a job is not changed by asking.
Asked of_job(const ExpectOptions& options, Context& context) {
    const job::Contents log = job::read_log(context.files.read(options.job, job::largest_log), options.job);
    advice::Subject subject = advice::subject_of(log.records);
    const std::string& own = subject.harness.networks[subject.network].id;
    if (!options.network.empty() && options.network != own) {
        refuse("other-network", options.job, fmt::format("this job is on network '{}'", own),
               "leave --network out");
    }
    return {std::move(subject.harness), subject.network, job::replay(log.records)};
}

electrics::Power power_named(const std::string& state) {
    if (state == "awake") return electrics::Power::Awake;
    return state == "asleep" ? electrics::Power::Asleep : electrics::Power::Off;
}

class Answer {
  public:
    Answer(const ExpectOptions& options, Context& context)
        : options_(options),
          context_(context),
          question_(options.job.empty() ? without_job(options, context) : of_job(options, context)),
          predictor_(question_.harness, question_.network),
          clip_(advice::clip_point(question_.harness, question_.network, question_.state)),
          power_(power_named(options.state)),
          columns_(options.columns > 0 ? options.columns : context.terminal.columns()) {}

    int give() {
        if (clip_ == none) {
            refuse("no-probe-point", options_.harness, "this bus has no point where a probe can be set",
                   "choose another bus with --network");
        }
        require_known_levels();
        take_apart();
        if (!options_.faults.empty()) take_faults();
        if (options_.table) {
            const auto table =
                advice::expect_table(predictor_, made_up_.variant, made_up_.faults, clip_, apart_, power_);
            return say({report::point_table_json(table, made_up_.name),
                        report::point_table_text(table, made_up_.name, columns_)});
        }
        const diagnosis::Tips tips =
            advice::tips_named(question_.harness, question_.network, clip_, options_.tips);
        if (options_.netlist) {
            context_.out << advice::expect_netlist(predictor_, made_up_.variant, made_up_.faults, tips,
                                                   apart_, power_);
            return Exit::fine;
        }
        return options_.tips.size() == 1 && power_ != electrics::Power::Off ? say_each_line(tips)
                                                                            : say(answer(tips));
    }

  private:
    struct Said {
        nlohmann::json data;
        std::string text;
    };

    Said answer(const diagnosis::Tips& tips) {
        if (!options_.faults.empty()) {
            const auto expected =
                advice::expect_faults(predictor_, made_up_.variant, made_up_.faults, tips, apart_, power_);
            return {report::fault_expectation_json(expected, made_up_.name),
                    report::fault_expectation_text(expected, made_up_.name, columns_)};
        }
        const auto evidence = advice::evidence(question_.harness, question_.network, question_.state);
        const auto expected =
            advice::expect(predictor_, diagnosis::infer(predictor_, evidence), tips, apart_, power_);
        const std::string basis =
            options_.job.empty() ? "before anything was read" : "after the readings of " + options_.job;
        return {report::expectation_json(expected, basis),
                report::expectation_text(expected, basis, columns_)};
    }

    // In volts a point is both its lines, each against ground.
    int say_each_line(const diagnosis::Tips& pair) {
        const diagnosis::Contact ground{diagnosis::Contact::Kind::Ground, none};
        const Said high = answer({pair.red, ground}), low = answer({pair.black, ground});
        const nlohmann::json data{
            {"state", options_.state}, {"point", options_.tips.front()}, {"lines", {high.data, low.data}}};
        return say({data, high.text + "\n" + low.text});
    }

    void require_known_levels() const {
        const harness::Network& network = question_.harness.networks[question_.network];
        if (power_ == electrics::Power::Off || advice::has_volts(network)) return;
        refuse("no-levels", "--state",
               fmt::format("the levels of bus '{}' ({}) are not known here", network.id, network.kind),
               "ask for ohms: leave --state out");
    }

    // As the job left it, unless told.
    void take_apart() {
        const bool told = !options_.apart.empty();
        apart_ =
            advice::parts_apart(question_.harness, predictor_, told ? options_.apart : question_.state.apart);
    }

    void take_faults() {
        session::Rehearsal rehearsal(question_.harness, question_.network);
        made_up_ = rehearsal.faults_named(options_.faults);
    }

    int say(const Said& said) {
        if (options_.json)
            put_json(context_.out, said.data);
        else
            context_.out << said.text;
        return Exit::fine;
    }

    const ExpectOptions& options_;
    Context& context_;
    Asked question_;
    diagnosis::Predictor predictor_;
    Index clip_;
    electrics::Power power_;
    std::size_t columns_;
    electrics::Apart apart_;
    session::MadeUp made_up_;
};

void require_sense(const ExpectOptions& options) {
    const bool between = !options.tips.empty();
    if (between == options.table) throw CLI::ValidationError("expect", "give one of --between and --table");
    if (options.netlist && (options.table || options.json))
        throw CLI::ValidationError("expect", "--netlist goes with --between alone");
}

}  // namespace

void add_expect(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<ExpectOptions>();
    CLI::App* command = program.add_subcommand("expect", "what would a meter read here?");
    command->add_option("HARNESS", options->harness, "harness file (JSON)")->type_name(".json")->required();
    command
        ->add_option("--between", options->tips,
                     "two terminals, ground, supply, clip; or one point: H to L (volts: each to ground)")
        ->expected(1, 2);
    command->add_option("--apart", options->apart, "parts unmated or unplugged")->delimiter(',');
    command->add_option("--state", options->state, "off: ohms; awake, asleep: volts, battery on")
        ->check(CLI::IsMember({"off", "awake", "asleep"}))
        ->capture_default_str();
    command->add_option("--fault", options->faults, "PART:MODE, with this in it; may be given twice")
        ->allow_extra_args(false);
    command->add_flag("--table", options->table,
                      "every point: each line to the clip (volts: to ground), H to L");
    command->add_flag("--netlist", options->netlist, "the circuit of it, for a circuit simulator (SPICE)");
    command->add_option("--network", options->network, "which bus (default: that of the tips)");
    command->add_option("--job", options->job, "weigh with the readings of this job log")
        ->type_name("FILE.job");
    command->add_option("--columns", options->columns, "width of the text")->check(CLI::Range(30, 400));
    command->add_flag("--json", options->json, "as data (schema: docs/schema/expect.schema.json)");
    command->footer(
        "Examples:\n  halfsplit expect minibus.json --between X4.a:1 clip\n"
        "  halfsplit expect minibus.json --table --fault X4:apart");
    command->callback([options, &context, &chosen] {
        require_sense(*options);
        chosen = [options, &context] { return Answer(*options, context).give(); };
    });
}

}  // namespace halfsplit::cli
