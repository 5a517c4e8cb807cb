// Harness lists in a build that leaves them out: what they are is told, and what to do.
#include "halfsplit/draft/from_kbl.hpp"

#include "base/collector.hpp"
#include "draft/source.hpp"

namespace halfsplit::draft {

std::string kbl_reader() {
    return {};
}

LoomRead read_kbl(std::string_view text, const std::string& file_name) {
    Collector findings;
    findings.error("kbl-left-out", "",
                   {"this is XML, as harness lists (KBL) are, and this build of halfsplit reads none",
                    "a wire sheet or a wire list (CSV)", "",
                    "export the loom as a wire list (docs/reference/wire-data.md), or take a build whose "
                    "--version names "
                    "a reader of harness lists"});
    return {{}, findings.placed(SourceOrigins(text, file_name))};
}

}  // namespace halfsplit::draft
