#include "halfsplit/report/draft_report.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/json_out.hpp"
#include "report/finding_json.hpp"

#include <algorithm>
#include <unordered_map>

namespace halfsplit::report {

namespace {

constexpr std::size_t lines_in_full = 40;
constexpr std::size_t names_shown = 4;

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

std::string noted(const std::string& heading, const std::vector<std::string>& lines, std::size_t columns) {
    std::string text;
    for (const std::string& line : folded_list(lines))
        text += wrap("  " + printable(line), columns, 4) + "\n";
    return text.empty() ? text : heading + "\n" + text;
}

}  // namespace

std::string draft_notes(const draft::Drafted& drafted, std::size_t columns) {
    return noted("Not said, and taken so:", drafted.assumed, columns) +
           noted("Said, and not carried over:", drafted.left_out, columns);
}

nlohmann::json draft_json(const draft::Drafted& drafted, const std::string& source,
                          const std::string& written) {
    return {{"source", source},
            {"written", written},
            {"findings", listed(drafted.findings, finding_json)},
            {"assumed", drafted.assumed},
            {"left_out", drafted.left_out}};
}

}  // namespace halfsplit::report
