#include "halfsplit/harness/read.hpp"

#include "base/file_failure.hpp"
#include "cli/commands.hpp"
#include "cli/draft_sheets.hpp"
#include "cli/draft_wires.hpp"

#include <memory>

namespace halfsplit::cli {

namespace {

struct DraftOptions {
    std::string source;
    WireOptions wires;
    SheetOptions sheets;
};

std::string read_source(const std::string& path, Context& context) {
    try {
        return context.files.read(path, harness::largest_file);
    } catch (const FileError& error) {
        throw InputError(about_failure(error, path, "source", harness::largest_file));
    }
}

int draft(const DraftOptions& options, Context& context) {
    SheetOptions sheets = options.sheets;
    sheets.output = options.wires.output;
    if (!sheets.from.empty()) return draft_from(read_source(sheets.from, context), sheets, context);
    if (sheets.ask || options.source.empty()) return draft_by_question(options.source, sheets, context);
    const std::string text = read_source(options.source, context);
    if (is_wire_data(text)) return draft_wires(text, options.source, options.wires, context);
    return draft_sheet_file(text, options.source, sheets, context);
}

}  // namespace

void add_draft(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<DraftOptions>();
    CLI::App* command = program.add_subcommand("draft", "a harness file from a wire sheet or wire data");
    command->add_option("SOURCE", options->source,
                        "wire sheet, harness list (KBL) or wire list (CSV); without one it asks");
    command->add_option("-o,--output", options->wires.output, "file to write (default: to the screen)");
    command->add_option("--network", options->wires.network,
                        "of wire data: a signal; H,L for a pair; ID= before it; else lists them");
    command->add_option("--columns", options->wires.columns,
                        "of a wire list: which is which, such as \"from=Pin A,to=Pin B\"");
    auto* from = command->add_option("--from", options->sheets.from, "harness to write as a wire sheet");
    command->add_flag("--ask", options->sheets.ask, "go on asking where the sheet breaks off")
        ->excludes(from);
    command->add_flag("--whole", options->sheets.whole, "write a library's places and covers out");
    command->add_flag("--json", options->sheets.json, "what a sheet gave (docs/schema/draft.schema.json)");
    command->add_option("--width", options->sheets.width, "of the screen, for the questions");
    command->footer(
        "Sheets: docs/wire-sheet.md. Wire data: docs/wire-data.md\n"
        "Exit code: 0 written, 1 written with warnings or less, 2 nothing written.\n"
        "Examples:\n  halfsplit draft minibus.wires -o minibus.json\n"
        "  halfsplit draft loom.csv --network body=CAN-H,CAN-L -o van.json");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return draft(*options, context); }; });
}

}  // namespace halfsplit::cli
