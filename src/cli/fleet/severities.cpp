#include "cli/fleet/severities.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/report/explanation.hpp"

#include <nlohmann/json.hpp>

#include "cli/fleet/json_file.hpp"

#include <algorithm>

namespace halfsplit::cli {

namespace {

const std::vector<std::string> levels{"error", "warning", "note", "off"};

std::optional<Severity> severity_named(const std::string& level) {
    if (level == "error") return Severity::Error;
    if (level == "warning") return Severity::Warning;
    if (level == "note") return Severity::Note;
    return std::nullopt;
}

Finding bad_level(const std::string& level) {
    Finding finding;
    finding.id = "not-a-choice";
    finding.message = "\"" + level + "\" is no severity";
    finding.expected = "ID=LEVEL, the level one of error, warning, note and off";
    finding.nearest = nearest_name(level, levels);
    finding.next_step = "write one of them behind the id, as in lines-alike=off";
    return finding;
}

}  // namespace

void Severities::set(const std::string& id, const std::string& level, const std::string& where) {
    const auto known = report::explanations();
    const auto has = [&](const report::Explanation& one) { return one.id == id && one.of_check(); };
    std::vector<Finding> wrong;
    if (std::none_of(known.begin(), known.end(), has)) wrong.push_back(report::unknown_id(id));
    if (std::find(levels.begin(), levels.end(), level) == levels.end()) wrong.push_back(bad_level(level));
    for (Finding& finding : wrong) finding.location.file = where;
    if (!wrong.empty()) throw InputError(wrong);
    set_[id] = severity_named(level);
}

Severities Severities::read(Files& files, const std::string& settings,
                            const std::vector<std::string>& words) {
    Severities result;
    if (!settings.empty()) {
        const nlohmann::json file = read_json_file(files, settings, "check-settings", "settings");
        for (const auto& entry : file.at("severity").items())
            result.set(entry.key(), entry.value().get<std::string>(), settings);
    }
    for (const std::string& word : words) {
        const std::size_t sign = word.find('=');
        const std::string level = sign == std::string::npos ? "" : word.substr(sign + 1);
        result.set(word.substr(0, sign), level, "--severity");
    }
    return result;
}

std::optional<Severity> Severities::of(const Finding& finding) const {
    const auto found = set_.find(finding.id);
    return found == set_.end() ? finding.severity : found->second;
}

}  // namespace halfsplit::cli
