// Harness lists in a build that leaves them out: what they are is told, and what to do.
#include "halfsplit/draft/from_kbl.hpp"

namespace halfsplit::draft {

std::string kbl_reader() {
    return {};
}

LoomRead read_kbl(std::string_view, const std::string& file_name) {
    Finding finding;
    finding.id = "kbl-left-out";
    finding.location.file = file_name;
    finding.message = "this is XML, as harness lists (KBL) are, and this build of halfsplit reads none";
    finding.expected = "a wire sheet or a wire list (CSV)";
    finding.next_step =
        "export the loom as a wire list (docs/wire-data.md), or take a build whose --version names a reader "
        "of "
        "harness lists";
    LoomRead read;
    read.findings.push_back(std::move(finding));
    return read;
}

}  // namespace halfsplit::draft
