#include "halfsplit/harness/read.hpp"

#include "base/file_failure.hpp"
#include "cli/commands.hpp"
#include "cli/draft_wires.hpp"

#include <memory>

namespace halfsplit::cli {

namespace {

struct DraftOptions {
    std::string source;
    WireOptions wires;
};

std::string read_source(const DraftOptions& options, Context& context) {
    try {
        return context.files.read(options.source, harness::largest_file);
    } catch (const FileError& error) {
        throw InputError(about_failure(error, options.source, "source", harness::largest_file));
    }
}

}  // namespace

void add_draft(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<DraftOptions>();
    CLI::App* command = program.add_subcommand("draft", "a harness file from wire data");
    command->add_option("SOURCE", options->source, "harness list (KBL) or wire list (CSV)")->required();
    command->add_option("-o,--output", options->wires.output, "file to write (default: to the screen)");
    command->add_option(
        "--network", options->wires.network,
        "a signal or wire number; H,L for a pair; ID= before it; left out: lists the signals");
    command->add_option("--columns", options->wires.columns,
                        "of a wire list: which column is which, such as \"from=Pin A,to=Pin B\"");
    command->footer(
        "Wire data and what becomes of it: docs/wire-data.md\n"
        "Exit code: 0 written, 1 written with warnings, 2 nothing written.\n"
        "Examples:\n  halfsplit draft loom.kbl --network LAMP_L -o lamp.json\n"
        "  halfsplit draft loom.csv --network body=CAN-H,CAN-L -o van.json");
    command->callback([options, &context, &chosen] {
        chosen = [options, &context] {
            return draft_wires(read_source(*options, context), options->source, options->wires, context);
        };
    });
}

}  // namespace halfsplit::cli
