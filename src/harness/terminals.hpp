// The terminals of a harness while it is read: who declares them and which wire ends there.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace halfsplit::harness {

// A terminal as a run names it: "M1:2", "X3.a:4", "S1:H".
struct TerminalReference {
    std::string part;
    char half = 0;
    std::string cavity;
};

// Empty when the text is not of that form.
std::optional<TerminalReference> parse_terminal(const std::string& text);

class Terminals {
  public:
    struct Use {
        bool declared = false;    // by the part itself: a pin, a splice's line, a plug's cavity
        std::string declared_at;  // pointer of the declaration
        std::string wired_at;     // pointer of the first wire end; empty: none
        std::size_t wires = 0;
    };

    // The terminal of that cavity, made where there is none yet.
    Index make(Harness& harness, Index part, char half, const std::string& cavity);
    Index find(Index part, char half, const std::string& cavity) const;
    // The same cavity of a connector's other half, or none.
    Index mate(const Harness& harness, Index terminal) const;

    Use& use(Index terminal) { return uses_.at(terminal); }
    const Use& use(Index terminal) const { return uses_.at(terminal); }

  private:
    static std::string key(Index part, char half, const std::string& cavity);
    std::unordered_map<std::string, Index> by_key_;
    std::vector<Use> uses_;
};

}  // namespace halfsplit::harness
