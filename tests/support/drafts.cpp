#include "support/drafts.hpp"

#include "halfsplit/draft/from_csv.hpp"
#include "halfsplit/draft/from_kbl.hpp"
#include "halfsplit/draft/from_loom.hpp"

#include "support/catch.hpp"

#include <algorithm>

namespace halfsplit::test {

draft::LoomRead read_loom(const std::string& text, const std::string& columns) {
    return draft::looks_like_xml(text) ? draft::read_kbl(text, "loom.kbl")
                                       : draft::read_csv(text, "loom.csv", columns);
}

std::vector<std::string> DraftedLine::left_out(const std::string& beginning) const {
    std::vector<std::string> result;
    for (const std::string& line : drafted.left_out) {
        if (line.rfind(beginning, 0) == 0) result.push_back(line);
    }
    return result;
}

bool DraftedLine::assumed(const std::string& words) const {
    return std::any_of(drafted.assumed.begin(), drafted.assumed.end(),
                       [&](const std::string& line) { return line.find(words) != std::string::npos; });
}

const nlohmann::json& DraftedLine::entry(const std::string& list, const std::string& id) const {
    static const nlohmann::json nothing;
    for (const nlohmann::json& it : document.value(list, nothing).is_null() ? nothing : document.at(list)) {
        if (it.at("id") == id) return it;
    }
    return nothing;
}

std::size_t DraftedLine::wires_used() const {
    std::size_t count = 0;
    for (const nlohmann::json& run : document.at("runs")) {
        if (!run.contains("note")) count += run.count("h") + run.count("l");
    }
    return count;
}

DraftedLine drafted(const std::string& text, const std::string& choice, const std::string& columns) {
    const draft::LoomRead read = read_loom(text, columns);
    INFO(to_text(read.findings));
    REQUIRE(read.loom);
    DraftedLine result{*read.loom, draft::draft_network(*read.loom, choice, text, "loom"), {}};
    if (!result.drafted.json.empty()) result.document = nlohmann::json::parse(result.drafted.json);
    return result;
}

std::vector<std::string> ids(const std::vector<Finding>& findings) {
    std::vector<std::string> result;
    for (const Finding& finding : findings) result.push_back(finding.id);
    return result;
}

}  // namespace halfsplit::test
