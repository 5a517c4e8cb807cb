#include "cli/draft_sheets.hpp"

#include "halfsplit/draft/wire_sheet.hpp"

#include <fmt/format.h>

#include "base/file_failure.hpp"
#include "base/paths.hpp"
#include "cli/sheet_questions.hpp"

namespace halfsplit::cli {

namespace {

// Wire data may be larger than a sheet, and which of them a file is shows when it is read.
void refuse_too_large(const std::string& text, const std::string& path) {
    if (text.size() <= draft::largest_sheet) return;
    throw InputError(
        about_file("file-too-large", path,
                   fmt::format("the wire sheet is larger than {} MB", draft::largest_sheet >> 20U),
                   "check that it is a wire sheet"));
}

}  // namespace

int draft_sheet_file(const std::string& text, const std::string& path, bool whole, const DraftOutput& output,
                     Context& context) {
    refuse_over(path, output, context);
    refuse_too_large(text, path);
    // A library is named relative to the file that includes it: elsewhere the names lead nowhere.
    const bool moved = !output.file.empty() && folder_part(output.file) != folder_part(path);
    const draft::DraftRules rules{.whole = whole || moved, .include = context.include};
    const draft::Drafted drafted = draft::draft_sheet(text, path, context.files, rules);
    return put_draft(drafted.json, drafted, path, output, context);
}

int draft_from(const std::string& text, const std::string& path, const DraftOutput& output,
               Context& context) {
    refuse_over(path, output, context);
    draft::WrittenSheet sheet = draft::write_sheet(text, path, context.files, context.include);
    draft::Drafted told;
    told.findings = std::move(sheet.findings);
    told.left_out = std::move(sheet.left_out);
    const int code = put_draft(sheet.text, told, path, output, context);
    return code == Exit::fine && !told.left_out.empty() ? Exit::findings : code;
}

int draft_by_question(const std::string& path, bool whole, const DraftOutput& output, Context& context) {
    SheetQuestions questions(context, path, output.columns);
    if (!questions.run()) return Exit::fine;
    DraftOutput finish = output;
    finish.quiet = true;
    const std::string text = context.files.read(questions.file(), draft::largest_sheet);
    return draft_sheet_file(text, questions.file(), whole, finish, context);
}

}  // namespace halfsplit::cli
