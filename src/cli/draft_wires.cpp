#include "cli/draft_wires.hpp"

#include "halfsplit/draft/from_csv.hpp"
#include "halfsplit/draft/from_kbl.hpp"
#include "halfsplit/draft/from_loom.hpp"
#include "halfsplit/draft/signals.hpp"

#include <ostream>

namespace halfsplit::cli {

namespace {

int list_signals(const draft::LoomRead& read, Context& context) {
    if (!read.findings.empty()) context.err << to_text(read.findings) << '\n';
    context.err << to_text(draft::signals(*read.loom), context.terminal.columns());
    return Exit::unusable;
}

}  // namespace

bool is_wire_data(std::string_view text) {
    return draft::looks_like_xml(text) || draft::looks_like_wire_list(text);
}

int draft_wires(const std::string& text, const std::string& path, const WireOptions& options,
                const DraftOutput& output, Context& context) {
    refuse_over(path, output, context);
    const draft::LoomRead read = draft::looks_like_xml(text) ? draft::read_kbl(text, path)
                                                             : draft::read_csv(text, path, options.columns);
    if (!read.loom) throw InputError(read.findings);
    if (options.network.empty()) return list_signals(read, context);
    draft::Drafted drafted = draft::draft_network(*read.loom, options.network, text, path);
    drafted.findings.insert(drafted.findings.begin(), read.findings.begin(), read.findings.end());
    return put_draft(drafted.json, drafted, path, output, context);
}

}  // namespace halfsplit::cli
