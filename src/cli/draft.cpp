#include "halfsplit/base/file_error.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/draft/wire_sheet.hpp"

#include <fmt/format.h>

#include "cli/commands.hpp"

#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct DraftOptions {
    std::string sheet, from, output;
};

int draft(const DraftOptions& options, Context& context) {
    if (!options.from.empty()) {
        const draft::WrittenSheet w = draft::write_sheet(context.files.read(options.from, draft::largest_sheet), options.from);
        context.err << to_text(w.findings) << '\n';
        for (const std::string& line : w.left_out) context.err << line << '\n';
        context.out << w.text;
        return 0;
    }
    const std::string text = context.files.read(options.sheet, draft::largest_sheet);
    const draft::Drafted drafted = draft::draft_sheet(text, options.sheet, context.files);
    if (!drafted.findings.empty()) context.err << to_text(drafted.findings) << '\n';
    for (const std::string& line : drafted.assumed) context.err << line << '\n';
    context.out << drafted.json;
    return 0;
}

}  // namespace

void add_draft(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<DraftOptions>();
    CLI::App* command = program.add_subcommand("draft", "a harness file from a short wire sheet, and back");
    command->add_option("SHEET", options->sheet, "the wire sheet");
    command->add_option("--from", options->from, "the wire sheet");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return draft(*options, context); }; });
}

}  // namespace halfsplit::cli
