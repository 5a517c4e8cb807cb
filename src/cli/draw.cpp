#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/base/file_error.hpp"
#include "halfsplit/drawing/drawing.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/session/session.hpp"

#include "base/paths.hpp"
#include "cli/commands.hpp"
#include "cli/job_marks.hpp"
#include "cli/read_job.hpp"

#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct DrawOptions {
    std::string harness, job, network, output;
    bool text = false;
    std::size_t columns = 0;
};

// What is drawn: the harness as the file has it, or as the job knows the vehicle.
struct Drawn {
    harness::Harness harness;
    harness::Index network = harness::none;
    drawing::Marks marks;
};

Drawn read_drawn(const DrawOptions& options, Context& context) {
    if (!options.job.empty()) {
        const job::Contents contents = read_job(context, options.job);
        advice::Subject subject = advice::subject_of(contents.records);
        drawing::Marks marks = job_marks(subject.harness, subject.network, job::replay(contents.records));
        return {std::move(subject.harness), subject.network, std::move(marks)};
    }
    harness::ReadResult read =
        harness::read_harness_file(context.files, options.harness, nullptr, context.include);
    if (!read.harness) throw InputError(read.findings);
    const harness::Index network = session::chosen_network(*read.harness, options.network, options.harness);
    return {std::move(*read.harness), network, {}};
}

int draw(const DrawOptions& options, Context& context) {
    const bool over = same_file(context.files, options.output, options.harness) ||
                      same_file(context.files, options.output, options.job);
    if (!options.output.empty() && over)
        throw FileError(FileError::Kind::Failed,
                        options.output + " would be written over itself: name another file behind -o");
    const Drawn drawn = read_drawn(options, context);
    const drawing::Drawing picture(drawn.harness, drawn.network);
    const std::size_t columns = options.columns > 0 ? options.columns : context.terminal.columns();
    const std::string made = options.text ? picture.text(drawn.marks, columns) : picture.svg(drawn.marks);
    if (options.output.empty()) {
        context.out << made;
    } else {
        context.files.write(options.output, made);
    }
    return Exit::fine;
}

}  // namespace

void add_draw(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<DrawOptions>();
    CLI::App* command = program.add_subcommand("draw", "the harness as a picture");
    command->add_option("HARNESS", options->harness, "harness file (JSON); with --job the job's own is drawn")
        ->type_name(".json");
    command->add_option("--job", options->job, "job log: what is good, suspect, found, unplugged")
        ->type_name("FILE.job");
    command->add_option("--network", options->network, "which bus of the file (default: the first)");
    command->add_option("-o,--output", options->output, "file to write (default: to the screen)")
        ->type_name("FILE.svg");
    command->add_flag("--text", options->text, "as text in place of SVG");
    command->add_option("--columns", options->columns, "width of the text (default: the terminal's)")
        ->check(CLI::Range(30, 400));
    command->footer(
        "Examples:\n  halfsplit draw minibus.json -o minibus.svg\n"
        "  halfsplit draw minibus.json --job monday.job --text");
    command->callback([options, &context, &chosen] {
        if (options->harness.empty() && options->job.empty()) throw CLI::RequiredError("HARNESS, or --job,");
        chosen = [options, &context] { return draw(*options, context); };
    });
}

}  // namespace halfsplit::cli
