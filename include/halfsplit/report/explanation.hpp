// What each finding means and how to mend it: the rows of docs/reference/findings.md. Those of `check` also
// say why it matters, and have the example that tests/data/findings/ holds.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::report {

struct Explanation {
    std::string id;
    std::string severity;  // in words: "error", "warning", "note", or two where it depends
    std::string meaning, why, mend;
    std::string example;  // as it is shown

    // Whether a harness file can have it: of a sheet, wire data or the prompt there is no `why`.
    bool of_check() const { return !why.empty(); }
};

// In the order of the page. Reads the compiled-in page anew with each call.
std::vector<Explanation> explanations();

// Lines of at most `columns`, each with its line end. The example keeps its lines.
std::string explanation_text(const Explanation& explanation, std::size_t columns);

// An id that is not there, with the nearest that is.
Finding unknown_id(const std::string& id);

}  // namespace halfsplit::report
