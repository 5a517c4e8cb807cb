// Every single fault of one variant with what is known of it before anything was read, worked out once.
#pragma once

#include "halfsplit/diagnosis/fault.hpp"

#include "diagnosis/loops.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::diagnosis {

struct Catalogue {
    // Keeps a reference to the assembly.
    Catalogue(const harness::Harness& harness, const electrics::Assembly& assembly);

    std::vector<Fault> faults;
    std::vector<double> weights;          // by fault; together 1
    std::vector<std::size_t> like_first;  // by fault: the first one that differs from it in ohms only
    Loops loops;
    std::vector<char> quiet;  // by fault: in a loop, so that it shows nowhere by itself
    bool any_quiet = false;
};

}  // namespace halfsplit::diagnosis
