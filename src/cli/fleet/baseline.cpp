#include "cli/fleet/baseline.hpp"

#include <nlohmann/json.hpp>

#include "cli/fleet/json_file.hpp"

#include <set>
#include <tuple>

namespace halfsplit::cli {

namespace {

using nlohmann::json;
using Entry = std::tuple<std::string, std::string, std::string>;  // file, id, fingerprint

bool can_be_known(const report::CheckedFile& file, const report::CheckedFinding& one) {
    return file.readable && one.finding.severity != Severity::Note;
}

}  // namespace

void hold_against_baseline(Files& files, const std::string& path, report::CheckedSet& set) {
    const json baseline = read_json_file(files, path, "baseline", "baseline");
    std::set<Entry> left;
    for (const json& entry : baseline.at("findings"))
        left.emplace(entry.at("file"), entry.at("id"), entry.at("fingerprint"));
    for (report::CheckedFile& file : set.files) {
        for (report::CheckedFinding& one : file.findings) {
            if (can_be_known(file, one))
                one.known = left.erase({file.file, one.finding.id, one.fingerprint}) > 0;
        }
    }
    set.baseline = true;
    set.mended = left.size();
}

void write_baseline(Files& files, const std::string& path, const report::CheckedSet& set) {
    json list = json::array();
    for (const report::CheckedFile& file : set.files) {
        for (const report::CheckedFinding& one : file.findings) {
            if (!can_be_known(file, one)) continue;
            list.push_back({{"file", file.file},
                            {"id", one.finding.id},
                            {"fingerprint", one.fingerprint},
                            {"message", one.finding.message}});
        }
    }
    const json baseline{{"format", "halfsplit-baseline"}, {"version", 1}, {"findings", std::move(list)}};
    files.write(path, baseline.dump(1) + '\n');
}

}  // namespace halfsplit::cli
