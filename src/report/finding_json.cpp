#include "report/finding_json.hpp"

#include <nlohmann/json.hpp>

namespace halfsplit::report {

nlohmann::json finding_json(const Finding& finding) {
    return {{"id", finding.id},
            {"severity", word(finding.severity)},
            {"file", finding.location.file},
            {"line", finding.location.line},
            {"column", finding.location.column},
            {"message", finding.message},
            {"expected", finding.expected},
            {"nearest", finding.nearest},
            {"next_step", finding.next_step}};
}

}  // namespace halfsplit::report
