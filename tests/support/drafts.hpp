// Wire data read and drafted in one call, and the accounting of its wires.
#pragma once

#include "halfsplit/draft/drafted.hpp"
#include "halfsplit/draft/loom.hpp"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace halfsplit::test {

// KBL or a wire list, as the text is one or the other.
draft::LoomRead read_loom(const std::string& text, const std::string& columns = {});

struct DraftedLine {
    draft::Loom loom;
    draft::Drafted drafted;
    nlohmann::json document;  // null where none was drafted

    // Lines of left_out that begin so.
    std::vector<std::string> left_out(const std::string& beginning) const;
    bool assumed(const std::string& words) const;
    const nlohmann::json& entry(const std::string& list, const std::string& id) const;
    // Wires that are runs of the document; of a pair's run, both.
    std::size_t wires_used() const;
};

DraftedLine drafted(const std::string& text, const std::string& choice, const std::string& columns = {});

// The ids of the findings.
std::vector<std::string> ids(const std::vector<Finding>& findings);

}  // namespace halfsplit::test
