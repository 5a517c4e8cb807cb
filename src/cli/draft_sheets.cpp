#include "cli/draft_sheets.hpp"

#include "halfsplit/base/file_error.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/draft/wire_sheet.hpp"
#include "halfsplit/report/draft_report.hpp"

#include <nlohmann/json.hpp>

#include "cli/sheet_questions.hpp"

#include <algorithm>
#include <ostream>

namespace halfsplit::cli {

namespace {

std::string folder(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    return slash == std::string::npos ? "" : path.substr(0, slash + 1);
}

void refuse_over(const std::string& source, const SheetOptions& options) {
    if (source != options.output) return;
    throw FileError(FileError::Kind::Failed,
                    source + " would be written over itself: name another file behind -o");
}

// Where what was made goes: the file that was named, or the screen. Empty: the screen, or nowhere.
std::string put(const std::string& text, const SheetOptions& options, Context& context) {
    if (text.empty()) return "";
    if (options.output.empty()) {
        if (!options.json && !options.quiet) context.out << text;
        return "";
    }
    context.files.write(options.output, text);
    return options.output;
}

int tell(const draft::Drafted& drafted, const std::string& source, const std::string& written,
         const SheetOptions& options, Context& context) {
    if (options.json) {
        context.out << report::draft_json(drafted, source, written).dump(2) << '\n';
    } else {
        if (!drafted.findings.empty()) context.err << to_text(drafted.findings) << "\n\n";
        context.err << report::draft_notes(drafted, options.notes_width);
        if (!written.empty()) context.err << printable(written) << " is written.\n";
    }
    if (any_error(drafted.findings)) return Exit::unusable;
    return drafted.findings.empty() && drafted.left_out.empty() ? Exit::fine : Exit::findings;
}

}  // namespace

int draft_sheet_file(const std::string& text, const std::string& path, const SheetOptions& options,
                     Context& context) {
    refuse_over(path, options);
    // A library is named relative to the file that includes it: elsewhere the names lead nowhere.
    const bool moved = !options.output.empty() && folder(options.output) != folder(path);
    const draft::DraftRules rules{.whole = options.whole || moved, .include = context.include};
    const draft::Drafted drafted = draft::draft_sheet(text, path, context.files, rules);
    const std::string written = put(drafted.json, options, context);
    return tell(drafted, path, written, options, context);
}

int draft_from(const std::string& text, const SheetOptions& options, Context& context) {
    refuse_over(options.from, options);
    draft::WrittenSheet sheet = draft::write_sheet(text, options.from, context.files, context.include);
    draft::Drafted told;
    told.findings = std::move(sheet.findings);
    told.left_out = std::move(sheet.left_out);
    const std::string written = put(sheet.text, options, context);
    return tell(told, options.from, written, options, context);
}

int draft_by_question(const std::string& path, const SheetOptions& options, Context& context) {
    const std::size_t columns = options.width > 0 ? options.width : context.terminal.columns();
    SheetOptions finish = options;
    finish.notes_width = std::clamp<std::size_t>(columns, 20, 200);
    SheetQuestions questions(context, path, finish.notes_width);
    if (!questions.run()) return Exit::fine;
    finish.quiet = options.output.empty();
    const std::string text = context.files.read(questions.file(), draft::largest_sheet);
    return draft_sheet_file(text, questions.file(), finish, context);
}

}  // namespace halfsplit::cli
