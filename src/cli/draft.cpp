#include "halfsplit/base/text.hpp"
#include "halfsplit/draft/from_csv.hpp"
#include "halfsplit/draft/from_kbl.hpp"
#include "halfsplit/draft/from_loom.hpp"
#include "halfsplit/draft/signals.hpp"
#include "halfsplit/harness/read.hpp"

#include "base/file_failure.hpp"
#include "cli/commands.hpp"

#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct DraftOptions {
    std::string source, output, network, columns;
};

std::string read_source(const DraftOptions& options, Context& context) {
    try {
        return context.files.read(options.source, harness::largest_file);
    } catch (const FileError& error) {
        throw InputError(about_failure(error, options.source, "source", harness::largest_file));
    }
}

void list(std::ostream& out, const std::string& heading, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    out << heading << '\n';
    for (const std::string& line : lines) out << "  " << printable(line) << '\n';
}

int draft(const DraftOptions& options, Context& context) {
    const std::string text = read_source(options, context);
    const draft::LoomRead read = draft::looks_like_xml(text)
                                     ? draft::read_kbl(text, options.source)
                                     : draft::read_csv(text, options.source, options.columns);
    if (!read.loom) throw InputError(read.findings);
    if (options.network.empty()) {
        context.err << to_text(draft::signals(*read.loom), context.terminal.columns());
        return Exit::unusable;
    }
    draft::Drafted drafted = draft::draft_network(*read.loom, options.network, text, options.source);
    drafted.findings.insert(drafted.findings.begin(), read.findings.begin(), read.findings.end());
    if (drafted.json.empty()) throw InputError(drafted.findings);
    if (!drafted.findings.empty()) context.err << to_text(drafted.findings) << '\n';
    list(context.err, "Assumed, as the source does not say:", drafted.assumed);
    list(context.err, "Left out:", drafted.left_out);
    if (options.output.empty()) {
        context.out << drafted.json;
    } else {
        context.files.write(options.output, drafted.json);
    }
    return Exit::fine;
}

}  // namespace

void add_draft(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<DraftOptions>();
    CLI::App* command = program.add_subcommand("draft", "a harness file from wire data");
    command->add_option("SOURCE", options->source, "wire list (CSV) or harness list (KBL)")->required();
    command->add_option("-o", options->output, "file to write (default: to the screen)");
    command->add_option("--network", options->network, "SIGNAL, or ID=H,L; left out: the signals are listed");
    command->add_option("--columns", options->columns, "CSV: which column is which (docs/wire-data.md)");
    command->footer(
        "Examples:\n  halfsplit draft loom.kbl --network LAMP_L -o lamp.json\n"
        "  halfsplit draft loom.csv --network body=CAN-H,CAN-L -o van.json");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return draft(*options, context); }; });
}

}  // namespace halfsplit::cli
