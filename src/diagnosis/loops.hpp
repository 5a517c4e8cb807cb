// Where a line runs in a loop, an open shows nowhere by itself: two do that together take the line apart.
#pragma once

#include "halfsplit/diagnosis/fault.hpp"

#include "electrics/cuts.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::diagnosis {

class Loops {
  public:
    // Of the lines alone, as they are wired: kilohms of transceivers and terminators close no loop. Linear.
    // Keeps a reference.
    explicit Loops(const electrics::Assembly& assembly);

    // Opens what it acts on, or puts ohms into it, and takes nothing apart by that.
    bool quiet(const Fault& fault) const;
    // Of two that are quiet.
    bool part_together(const Fault& one, const Fault& other) const;

  private:
    std::vector<std::size_t> in_line(const Fault& fault) const;

    const electrics::Assembly& assembly_;
    electrics::Cuts cuts_;
};

}  // namespace halfsplit::diagnosis
