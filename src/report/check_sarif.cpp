// SARIF 2.1.0: section numbers are those of the OASIS Standard.
#include "halfsplit/report/check_report.hpp"
#include "halfsplit/report/explanation.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/paths.hpp"

#include <map>
#include <string_view>

namespace halfsplit::report {

using nlohmann::json;

namespace {

// RFC 3986: unreserved characters and "/" stay. A ":" in the first name would read as a scheme, so it does
// not.
std::string uri_of(const std::string& path) {
    constexpr std::string_view unreserved = "-._~/";
    std::string uri = !is_rooted(path) ? "" : path.front() == '/' ? "file://" : "file:///";  // a drive
    for (const char c : path) {
        const bool plain = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
                           unreserved.find(c) != std::string_view::npos;
        uri += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
    }
    return uri;
}

// The rules that are met, numbered in order of id.
class Rules {
  public:
    explicit Rules(const CheckedSet& set) {
        for (const CheckedFile& file : set.files) {
            for (const CheckedFinding& one : file.findings) numbers_[one.finding.id] = 0;
        }
        std::size_t number = 0;
        for (auto& entry : numbers_) entry.second = number++;
    }

    std::size_t number(const std::string& id) const { return numbers_.at(id); }

    // 3.49
    json described() const {
        std::map<std::string, Explanation> known;
        for (Explanation& one : explanations()) known.emplace(one.id, one);
        json list = json::array();
        for (const auto& entry : numbers_) {
            json rule{{"id", entry.first}};
            const auto found = known.find(entry.first);
            if (found != known.end()) {
                const Explanation& it = found->second;
                rule["shortDescription"] = {{"text", it.meaning}};
                rule["fullDescription"] = {{"text", it.why}};
                rule["help"] = {{"text", it.mend}};
                rule["defaultConfiguration"] = {{"level", it.severity.substr(0, it.severity.find(','))}};
            }
            list.push_back(std::move(rule));
        }
        return list;
    }

  private:
    std::map<std::string, std::size_t> numbers_;
};

// 3.55: what is mended, in the very file.
json fix_of(const CheckedFinding& one, const json& artifact) {
    json replacement{{"deletedRegion",
                      {{"startLine", one.mended_from->line},
                       {"startColumn", one.mended_from->column},
                       {"endLine", one.mended_to->line},
                       {"endColumn", one.mended_to->column}}}};
    if (!one.mended_text.empty()) replacement["insertedContent"] = {{"text", one.mended_text}};
    return {{"description", {{"text", one.finding.next_step}}},
            {"artifactChanges",
             json::array({{{"artifactLocation", artifact}, {"replacements", json::array({replacement})}}})}};
}

std::string message_of(const Finding& finding) {
    std::string text = finding.message + '.';
    if (!finding.expected.empty()) text += " Expected: " + finding.expected + '.';
    if (!finding.nearest.empty()) text += " Nearest known name: \"" + finding.nearest + "\".";
    if (!finding.next_step.empty()) text += " Next: " + finding.next_step + '.';
    return text;
}

// 3.27
json result_of(const CheckedFinding& one, const Rules& rules, bool baseline) {
    const Finding& finding = one.finding;
    const json artifact{{"uri", uri_of(finding.location.file)}};
    json place{{"artifactLocation", artifact}};
    if (finding.location.line > 0)
        place["region"] = {{"startLine", finding.location.line}, {"startColumn", finding.location.column}};
    json result{{"ruleId", finding.id},
                {"ruleIndex", rules.number(finding.id)},
                {"level", word(finding.severity)},
                {"message", {{"text", message_of(finding)}}},
                {"locations", json::array({{{"physicalLocation", std::move(place)}}})},
                {"partialFingerprints", {{"finding/v1", one.fingerprint}}}};
    if (baseline) result["baselineState"] = one.known ? "unchanged" : "new";
    if (one.mended_from) result["fixes"] = json::array({fix_of(one, artifact)});
    return result;
}

}  // namespace

json check_sarif(const CheckedSet& set, const std::string& version) {
    const Rules rules(set);
    json results = json::array(), artifacts = json::array();
    bool readable = true;
    for (const CheckedFile& file : set.files) {
        if (file.passed_over) continue;
        readable = readable && file.readable;
        if (file.readable) artifacts.push_back({{"location", {{"uri", uri_of(file.file)}}}});
        for (const CheckedFinding& one : file.findings)
            results.push_back(result_of(one, rules, set.baseline));
    }
    json run{
        {"tool", {{"driver", {{"name", "halfsplit"}, {"version", version}, {"rules", rules.described()}}}}},
        {"columnKind", "unicodeCodePoints"},
        {"invocations", json::array({{{"executionSuccessful", readable}}})},
        {"artifacts", std::move(artifacts)},
        {"results", std::move(results)}};
    return {{"$schema",
             "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"},
            {"version", "2.1.0"},
            {"runs", json::array({std::move(run)})}};
}

}  // namespace halfsplit::report
