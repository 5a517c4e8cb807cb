#include "halfsplit/base/file_error.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/draft/wire_sheet.hpp"
#include "halfsplit/report/draft_report.hpp"

#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/sheet_questions.hpp"

#include <algorithm>
#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct DraftOptions {
    std::string sheet, from, output;
    std::size_t columns = 0;
    bool json = false, whole = false, ask = false;
    std::size_t notes_columns = 80;
    bool quiet = false;  // nothing but what is to be told
};

std::string folder(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    return slash == std::string::npos ? "" : path.substr(0, slash + 1);
}

// Where what was made goes: the file that was named, or the output. Empty: the output, or nowhere.
std::string put(const std::string& text, const DraftOptions& options, Context& context) {
    if (text.empty()) return "";
    if (options.output.empty()) {
        if (!options.json && !options.quiet) context.out << text;
        return "";
    }
    context.files.write(options.output, text);
    return options.output;
}

int tell(const draft::Drafted& drafted, const std::string& source, const std::string& written,
         const DraftOptions& options, Context& context) {
    if (options.json) {
        context.out << report::draft_json(drafted, source, written).dump(2) << '\n';
    } else {
        if (!drafted.findings.empty()) context.err << to_text(drafted.findings) << "\n\n";
        context.err << report::draft_notes(drafted, options.notes_columns);
        if (!written.empty()) context.err << printable(written) << " is written.\n";
    }
    const bool whole = drafted.findings.empty() && drafted.left_out.empty();
    return whole ? Exit::fine : Exit::findings;
}

int draft_from(const DraftOptions& options, Context& context) {
    const std::string text = context.files.read(options.from, harness::largest_file);
    draft::WrittenSheet sheet = draft::write_sheet(text, options.from, context.files, context.include);
    draft::Drafted told;
    told.findings = std::move(sheet.findings);
    told.left_out = std::move(sheet.left_out);
    const std::string written = put(sheet.text, options, context);
    return tell(told, options.from, written, options, context);
}

int draft_sheet(const DraftOptions& options, Context& context) {
    const std::string text = context.files.read(options.sheet, draft::largest_sheet);
    // A library is named relative to the file that includes it: elsewhere the names lead nowhere.
    const bool moved = !options.output.empty() && folder(options.output) != folder(options.sheet);
    const draft::DraftRules rules{.whole = options.whole || moved, .include = context.include};
    const draft::Drafted drafted = draft::draft_sheet(text, options.sheet, context.files, rules);
    const std::string written = put(drafted.json, options, context);
    return tell(drafted, options.sheet, written, options, context);
}

int draft(const DraftOptions& options, Context& context) {
    const std::string& source = options.from.empty() ? options.sheet : options.from;
    if (!source.empty() && source == options.output)
        throw FileError(FileError::Kind::Failed,
                        options.output + " would be written over itself: name another file behind -o");
    if (!options.from.empty()) return draft_from(options, context);
    if (!options.ask && !options.sheet.empty()) return draft_sheet(options, context);
    const std::size_t columns = options.columns > 0 ? options.columns : context.terminal.columns();
    SheetQuestions questions(context, options.sheet, std::clamp<std::size_t>(columns, 20, 200));
    if (!questions.run()) return Exit::fine;
    DraftOptions finish = options;
    finish.sheet = questions.file();
    finish.notes_columns = columns;
    finish.quiet = options.output.empty();
    return draft_sheet(finish, context);
}

}  // namespace

void add_draft(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<DraftOptions>();
    CLI::App* command = program.add_subcommand("draft", "a harness file from a short wire sheet, and back");
    command->add_option("SHEET", options->sheet, "the wire sheet; without one it is asked for, hop by hop");
    command->add_option("-o,--output", options->output, "file to write; otherwise to the output");
    auto* from = command->add_option("--from", options->from, "harness file to write a sheet from");
    command->add_flag("--ask", options->ask, "go on asking where SHEET breaks off")->excludes(from);
    command->add_flag("--whole", options->whole, "write places and covers of libraries out");
    command->add_flag("--json", options->json,
                      "what was found and assumed as data (schema: docs/schema/draft.schema.json)");
    command->add_option("--columns", options->columns, "width of the screen for the questions");
    command->footer(
        "docs/wire-sheet.md is the notation. What a sheet leaves out is listed.\n"
        "Exit code: 0 all sound, 1 findings or something left out, 2 unusable input.\n"
        "Examples:\n  halfsplit draft minibus.wires -o minibus.json\n"
        "  halfsplit draft --from minibus.json -o minibus.wires");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return draft(*options, context); }; });
}

}  // namespace halfsplit::cli
