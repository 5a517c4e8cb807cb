// At most the least expected minutes, by blocks of suspects that are each searched by itself, and what
// telling the blocks apart takes. Errs low.
//
// Blocks: whoever is told for nothing in which block the fault is may take the same plan and leave out every
// step that tells nothing of that block. Where no detour is shorter than the way itself, what is left takes
// no longer for it: a cover comes off when it is first needed. So the least minutes of the blocks by
// themselves, from the same standing, sum to no more than those of the whole.
//
// Telling apart, where the tests cut one line and no element is in two blocks. What was left out takes at
// least `step`, the least minutes of any test or look at its site. Take one suspect of each block. The steps
// that tell these apart are a code, so Huffman's length is the least they come to, weighed by the blocks. Of
// those on the way to one suspect, all but two tell nothing of its own block: a cut inside the block parts
// the suspect from the other blocks on one side, after which none is left there, and its own look, if that
// comes while others are left, takes the place of the cut on their side. At either end of the line one side
// has no blocks. It holds whichever suspects are taken, so it holds on average:
//     minutes left out >= step * (Huffman(weights of the blocks) - 2, at either end 1, each times its weight)
#pragma once

#include "plan/search.hpp"

#include <cstdint>

namespace halfsplit::plan {

struct BlockBound {
    double minutes = 0;  // weighted; 0 where nothing can be said
    std::uint64_t expansions = 0;
};

// Of all suspects. Blocks are as large as `states` may be expected to suffice for, of neighbours on the line
// or, where there is none, of neighbours by element. Says nothing where a detour is shorter than a way, where
// suspects go on to others, or where all fit in one block.
BlockBound block_bound(const Model& model, SuspectSets& sets, Weights& weights, const access::Standing& start,
                       std::uint64_t states);

}  // namespace halfsplit::plan
