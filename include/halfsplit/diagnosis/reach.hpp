// How far messages get from the diagnostic socket, by what is in their way. Worked out once for each set of
// edges that are blocked: most faults block nothing, and many block the same.
#pragma once

#include "halfsplit/electrics/assembly.hpp"
#include "halfsplit/electrics/graph.hpp"

#include <cstddef>
#include <map>
#include <vector>

namespace halfsplit::diagnosis {

struct Reach {
    struct End {
        bool high = false, low = false;
    };
    std::vector<End> modules;         // by module of the assembly: which lines lead there, each by itself
    bool terminator_missing = false;  // or out of reach
    std::vector<bool> reached;        // by node: messages get there along its line
};

class Reaches {
  public:
    // Keeps references.
    Reaches(const electrics::Assembly& assembly, const electrics::Graph& graph);

    // After the changes. A walk of the graph the first time; later a look-up. The answer stays where it is.
    const Reach& after(const std::vector<electrics::Change>& changes);
    // How many sets of blocked edges were asked for so far.
    std::size_t walks() const { return known_.size(); }

  private:
    bool lets_through(std::size_t edge, double ohm) const;
    Reach walk(const std::vector<std::size_t>& turned) const;

    const electrics::Assembly& assembly_;
    const electrics::Graph& graph_;
    std::vector<char> sound_;                          // by edge: lets a message through, or terminates
    std::map<std::vector<std::size_t>, Reach> known_;  // by edges that are not as in a sound bus
};

// A joint of so many ohms and more is as good as open for a message, and so is a short as good as none.
inline constexpr double blocking_ohm = 500;

}  // namespace halfsplit::diagnosis
