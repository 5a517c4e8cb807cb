#include "cli/draft_wires.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/draft/from_csv.hpp"
#include "halfsplit/draft/from_kbl.hpp"
#include "halfsplit/draft/from_loom.hpp"
#include "halfsplit/draft/signals.hpp"

#include <fmt/format.h>

#include <ostream>
#include <unordered_map>

namespace halfsplit::cli {

namespace {

constexpr std::size_t lines_in_full = 40;
constexpr std::size_t names_shown = 4;

void put_list(const std::string& heading, const std::vector<std::string>& lines, Context& context) {
    if (lines.empty()) return;
    context.err << heading << '\n';
    for (const std::string& line : lines)
        context.err << wrap("- " + printable(line), context.terminal.columns(), 2) << '\n';
}

// Of a long list, what has the same reason in one line.
std::vector<std::string> folded_list(const std::vector<std::string>& lines) {
    if (lines.size() <= lines_in_full) return lines;
    struct Group {
        std::vector<std::string> names;
        std::size_t count = 0;
        std::string reason;
    };
    std::vector<Group> groups;
    std::unordered_map<std::string, std::size_t> by_reason;
    for (const std::string& line : lines) {
        const std::size_t end = std::min(line.find(": "), line.size());
        const auto [entry, fresh] = by_reason.try_emplace(line.substr(end), groups.size());
        if (fresh) groups.push_back({{}, 0, line.substr(end)});
        Group& group = groups[entry->second];
        if (++group.count <= names_shown) group.names.push_back(line.substr(0, end));
    }
    std::vector<std::string> result;
    for (const Group& group : groups) {
        const std::size_t more = group.count - group.names.size();
        result.push_back(join(group.names, ", ") + (more > 0 ? fmt::format(" and {} more", more) : "") +
                         group.reason);
    }
    return result;
}

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
                Context& context) {
    const draft::LoomRead read = draft::looks_like_xml(text) ? draft::read_kbl(text, path)
                                                             : draft::read_csv(text, path, options.columns);
    if (!read.loom) throw InputError(read.findings);
    if (options.network.empty()) return list_signals(read, context);
    draft::Drafted drafted = draft::draft_network(*read.loom, options.network, text, path);
    drafted.findings.insert(drafted.findings.begin(), read.findings.begin(), read.findings.end());
    if (drafted.json.empty()) throw InputError(drafted.findings);
    if (options.output.empty()) {
        context.out << drafted.json;
    } else {
        context.files.write(options.output, drafted.json);
    }
    if (!drafted.findings.empty()) context.err << to_text(drafted.findings) << '\n';
    put_list("Assumed, as the source does not say:", drafted.assumed, context);
    put_list("Left out:", folded_list(drafted.left_out), context);
    return drafted.findings.empty() ? Exit::fine : Exit::findings;
}

}  // namespace halfsplit::cli
