#include "halfsplit/draft/from_loom.hpp"

#include "halfsplit/harness/read.hpp"

#include "base/collector.hpp"
#include "draft/layout.hpp"
#include "draft/loom_document.hpp"

namespace halfsplit::draft {

namespace {

// Every wire that is no run of the file, and why.
void list_unused(const Loom& loom, const Followed& followed, const LoomDocument& document,
                 std::vector<std::string>& left_out) {
    for (std::size_t wire = 0; wire < loom.wires.size(); ++wire) {
        if (followed.unused[wire].empty()) continue;
        const bool neighbour = document.neighbours().contains(wire);
        left_out.push_back(called(loom.wires[wire]) + ": " + followed.unused[wire] +
                           (neighbour ? "; kept as a neighbour" : ""));
    }
}

}  // namespace

Drafted draft_network(const Loom& loom, std::string_view choice, std::string_view text,
                      const std::string& file_name) {
    Drafted result;
    SourceOrigins origins(text, file_name);
    Collector findings;
    const LineChoice lines = read_choice(loom, choice);
    const Followed followed = follow(loom, lines, findings);
    result.findings = findings.placed(origins);
    if (findings.errors()) return result;
    result.assumed = loom.assumed;
    result.assumed.insert(result.assumed.end(), followed.assumed.begin(), followed.assumed.end());
    LoomDocument document(loom, followed, lines, origins, result.assumed);
    const nlohmann::ordered_json json = document.write();
    const harness::ReadResult read = harness::read_document(nlohmann::json(json), origins);
    result.findings.insert(result.findings.end(), read.findings.begin(), read.findings.end());
    if (read.harness) result.json = laid_out(json);
    list_unused(loom, followed, document, result.left_out);
    result.left_out.insert(result.left_out.end(), loom.left_out.begin(), loom.left_out.end());
    return result;
}

}  // namespace halfsplit::draft
