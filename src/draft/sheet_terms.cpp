#include "draft/sheet_terms.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace halfsplit::draft {

namespace {

struct Term {
    std::string_view id, expected, next;
};

constexpr std::array<Term, 15> terms{{
    {"plug-for-nothing", "a module or option that may be absent",
     "correct the name, or say when it is fitted: \"with\" and an option behind the module"},
    {"cavity-used-twice", "",
     "correct one of the two; where wires join, add a splice; where the pair comes from the other half, name "
     "it: X1.b"},
    {"unknown-cavity", "", "correct the cavity, or the face such as 2x10"},
    {"pass-through-missing", "",
     "write \"plug\" and its name behind the module, or a line: plug BP1 on X7.a 1/2 3/4 for lift"},
    {"unreachable-module", "", "add the hop that is missing, or \"from\" where the pair comes from"},
    {"unreachable-part", "", "say by which option it is fitted (\"with lift\"), or add what is missing"},
    {"loose-end", "", "correct the cavity, or add the hop that goes on"},
    {"terminator-count", "",
     "write \"term\" behind the module that holds one, add the terminator, or say \"terminators 1\" on the "
     "line of the bus"},
    {"stub-too-long", "", "check the lengths, or say what is allowed on the line of the bus: stub 2m"},
    {"stubs-together", "",
     "check the lengths and the bit rate, or say what is allowed on the line of the bus: stub 2m"},
    {"bad-name", "", "rename it, and put words behind a comma"},
    {"unknown-reference", "", "correct the name, or declare it further up"},
    {"unknown-member", "a figure of the format's assumptions", "correct the name"},
    {"out-of-range", "", "correct it"},
    {"missing-member", "", "complete the line"},
}};

}  // namespace

std::vector<Finding> in_sheet_terms(std::vector<Finding> findings) {
    // Notes are about the harness as such: halfsplit check tells them.
    findings.erase(std::remove_if(findings.begin(), findings.end(),
                                  [](const Finding& finding) { return finding.severity == Severity::Note; }),
                   findings.end());
    for (Finding& finding : findings) {
        finding.mend = {};  // of a JSON text
        for (const Term& term : terms) {
            if (finding.id != term.id) continue;
            if (!term.expected.empty()) finding.expected = term.expected;
            finding.next_step = term.next;
        }
    }
    return findings;
}

}  // namespace halfsplit::draft
