#include "cli/put_draft.hpp"

#include "halfsplit/base/file_error.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/report/draft_report.hpp"

#include <nlohmann/json.hpp>

#include "base/paths.hpp"
#include "cli/put_json.hpp"

#include <ostream>

namespace halfsplit::cli {

void refuse_over(const std::string& source, const DraftOutput& output, Context& context) {
    if (output.file.empty() || !same_file(context.files, source, output.file)) return;
    throw FileError(FileError::Kind::Failed,
                    source + " would be written over itself: name another file behind -o");
}

int put_draft(const std::string& text, const draft::Drafted& drafted, const std::string& source,
              const DraftOutput& output, Context& context) {
    const bool to_file = !text.empty() && !output.file.empty();
    if (to_file) context.files.write(output.file, text);
    if (output.json) {
        const std::string written = to_file ? output.file : "";
        put_json(context.out, report::draft_json(drafted, source, written));
    } else {
        // A harness file; a wire sheet has no escapes.
        const bool json = text.rfind('{', 0) == 0;
        if (!to_file && !output.quiet) context.out << (json ? escaped_json(text) : text);
        if (!drafted.findings.empty()) context.err << to_text(drafted.findings) << "\n\n";
        context.err << report::draft_notes(drafted, output.columns);
        if (to_file) context.err << printable(output.file) << " is written.\n";
    }
    if (any_error(drafted.findings)) return Exit::unusable;
    return drafted.findings.empty() ? Exit::fine : Exit::findings;
}

}  // namespace halfsplit::cli
