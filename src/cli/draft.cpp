#include "halfsplit/harness/read.hpp"

#include "base/file_failure.hpp"
#include "cli/commands.hpp"
#include "cli/draft_sheets.hpp"
#include "cli/draft_wires.hpp"

#include <algorithm>
#include <memory>

namespace halfsplit::cli {

namespace {

struct DraftOptions {
    std::string source;
    std::string from;
    WireOptions wires;
    DraftOutput output;
    bool ask = false, whole = false;
    std::size_t width = 0;
};

std::string read_source(const std::string& path, Context& context) {
    try {
        return context.files.read(path, harness::largest_file);
    } catch (const FileError& error) {
        throw InputError(about_failure(error, context.files, path, "source", harness::largest_file));
    }
}

int draft(const DraftOptions& options, Context& context) {
    DraftOutput output = options.output;
    const std::size_t columns = options.width > 0 ? options.width : context.terminal.columns();
    output.columns = std::clamp<std::size_t>(columns, 20, 200);
    if (!options.from.empty())
        return draft_from(read_source(options.from, context), options.from, output, context);
    if (options.ask || options.source.empty())
        return draft_by_question(options.source, options.whole, output, context);
    const std::string text = read_source(options.source, context);
    if (is_wire_data(text)) return draft_wires(text, options.source, options.wires, output, context);
    return draft_sheet_file(text, options.source, options.whole, output, context);
}

}  // namespace

void add_draft(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<DraftOptions>();
    CLI::App* command = program.add_subcommand("draft", "a harness file from a wire sheet or wire data");
    command
        ->add_option("SOURCE", options->source,
                     "wire sheet, harness list (KBL) or wire list (CSV); without one it asks")
        ->type_name(".wires|.kbl|.csv");
    command->add_option("-o,--output", options->output.file, "file to write (default: to the screen)")
        ->type_name("FILE");
    command->add_option("--network", options->wires.network,
                        "of wire data: a signal; H,L for a pair; ID= before it; else lists them");
    command->add_option("--columns", options->wires.columns,
                        "of a wire list: which is which, such as \"from=Pin A,to=Pin B\"");
    auto* from = command->add_option("--from", options->from, "harness to write as a wire sheet")
                     ->type_name("FILE.json")
                     ->option_text("FILE.json");
    command->add_flag("--ask", options->ask, "go on asking where the sheet breaks off")->excludes(from);
    command->add_flag("--whole", options->whole, "write a library's places and covers out");
    command->add_flag("--json", options->output.json,
                      "what is told, as data (docs/schema/draft.schema.json)");
    command->add_option("--width", options->width, "of the screen (default: as it is)");
    command->footer(
        "Sheets: docs/reference/wire-sheet.md. Wire data: docs/reference/wire-data.md\n"
        "Exit code: 0 written, 1 written, with findings, 2 nothing written.\n"
        "Examples:\n  halfsplit draft minibus.wires -o minibus.json\n"
        "  halfsplit draft loom.csv --network body=CAN-H,CAN-L -o van.json");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return draft(*options, context); }; });
}

}  // namespace halfsplit::cli
