#include "cli/fleet/fixes.hpp"

#include <algorithm>
#include <map>

namespace halfsplit::cli {

namespace {

constexpr std::size_t most_single_tries = 20;  // where all changes together do not help

// How often each finding is said, whatever line it is at.
std::map<std::string, std::size_t> said(const std::vector<Finding>& findings) {
    std::map<std::string, std::size_t> result;
    for (const Finding& finding : findings)
        ++result[finding.id + '\n' + finding.message.substr(0, finding.message.rfind(" (see "))];
    return result;
}

std::size_t errors_in(const std::vector<Finding>& findings) {
    return static_cast<std::size_t>(
        std::count_if(findings.begin(), findings.end(),
                      [](const Finding& finding) { return finding.severity == Severity::Error; }));
}

// Errors hide what is judged only of a file without them: warnings may come to light when the last one goes.
bool cleaner(const std::vector<Finding>& before, const std::vector<Finding>& after) {
    const auto old = said(before);
    for (const Finding& finding : after) {
        if (finding.severity != Severity::Error) continue;
        if (!old.contains(said({finding}).begin()->first)) return false;
    }
    const std::size_t errors = errors_in(after);
    if (errors != errors_in(before)) return errors < errors_in(before);
    return after.size() < before.size();
}

}  // namespace

std::vector<Edit> safe_edits(const std::vector<Finding>& findings, const std::string& text,
                             const ReadAgain& again) {
    const auto mendable = [&](const Finding& finding) {
        return finding.mend.kind != Mend::Kind::None && finding.location.file == again.name;
    };
    if (std::none_of(findings.begin(), findings.end(), mendable)) return {};
    const Lines lines(text);
    std::vector<Edit> all;
    for (const Finding& finding : findings) {
        if (!mendable(finding)) continue;
        if (auto edit = edit_of(finding, text, lines)) all.push_back(std::move(*edit));
    }
    all = in_order(std::move(all));
    if (all.empty() || cleaner(findings, again.findings(edited(text, all)))) return all;
    std::vector<Edit> kept;
    std::vector<Finding> now = findings;
    for (std::size_t i = 0; i < std::min(all.size(), most_single_tries); ++i) {
        std::vector<Edit> with = kept;
        with.push_back(all[i]);
        std::vector<Finding> then = again.findings(edited(text, with));
        if (!cleaner(now, then)) continue;
        kept = std::move(with);
        now = std::move(then);
    }
    return kept;
}

}  // namespace halfsplit::cli
