#include "plan/block_bound.hpp"

#include "plan/huffman.hpp"
#include "plan/line_order.hpp"
#include "plan/search_reach.hpp"

#include <algorithm>
#include <numeric>

namespace halfsplit::plan {

using access::Standing;

namespace {

std::vector<std::uint32_t> by_element(const Model& model) {
    std::vector<std::uint32_t> order(model.suspects.size());
    std::iota(order.begin(), order.end(), 0U);
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
        return model.kind[a] < model.kind[b];  // kinds are numbered by element
    });
    return order;
}

// The most elements to a block for which the states may be expected to suffice.
std::uint32_t elements_to_a_block(std::uint32_t elements, std::uint64_t states) {
    std::uint32_t size = 2;
    while (size < elements &&
           likely_expansions(size + 1.0) * elements <= static_cast<double>(states) * (size + 1.0))
        ++size;
    const std::uint32_t blocks = (elements + size - 1) / size;
    return (elements + blocks - 1) / blocks;
}

struct SuspectBlock {
    std::vector<Word> bits;
    double weight = 0;
};

struct SuspectBlocks {
    std::vector<SuspectBlock> blocks;
    bool elements_apart = true;  // none is in two blocks
};

// A block ends once it has as many elements as it may.
SuspectBlocks cut_into_blocks(const Model& model, const Weights& weights,
                              const std::vector<std::uint32_t>& order, std::uint32_t elements_each) {
    SuspectBlocks result;
    std::vector<std::size_t> block_of(model.suspects.size() + 1, 0);  // by element, from 1; 0: none yet
    std::uint32_t elements = elements_each;
    for (const std::uint32_t s : order) {
        const std::uint32_t element = model.suspects[s].element;
        if (element >= block_of.size()) block_of.resize(element + 1, 0);
        if (block_of[element] != result.blocks.size() || result.blocks.empty()) {
            if (elements == elements_each) {
                result.blocks.push_back({std::vector<Word>(model.words, 0), 0});
                elements = 0;
            }
            ++elements;
            if (block_of[element] != 0) result.elements_apart = false;
            block_of[element] = result.blocks.size();
        }
        result.blocks.back().bits[s / word_bits] |= Word{1} << s % word_bits;
        result.blocks.back().weight += weights.of_suspect(s);
    }
    return result;
}

// The sets of the blocks from `first` up to `last`. A test that does not split the half a block is in does
// not split the block, so that halves spare trying each test on each block.
void intern_blocks(SuspectSets& sets, const std::vector<SuspectBlock>& blocks, std::size_t first,
                   std::size_t last, SetId larger, std::vector<SetId>& result) {
    std::vector<Word> bits = blocks[first].bits;
    for (std::size_t b = first + 1; b < last; ++b)
        for (std::size_t w = 0; w < bits.size(); ++w) bits[w] |= blocks[b].bits[w];
    const SetId own = sets.intern(bits, larger);
    if (last - first == 1) {
        result.push_back(own);
        return;
    }
    const std::size_t middle = first + (last - first) / 2;
    intern_blocks(sets, blocks, first, middle, own, result);
    intern_blocks(sets, blocks, middle, last, own, result);
}

double telling_apart(const Model& model, const std::vector<SuspectBlock>& blocks) {
    double step = Search::infinity;
    for (const PlannedTest& test : model.tests) step = std::min(step, test.site.minutes);
    for (const Suspect& suspect : model.suspects)
        step = std::min(step, model.bare[suspect.element].site.minutes);
    std::vector<double> weights;
    double own_cuts = 0;
    for (const SuspectBlock& block : blocks) {
        weights.push_back(block.weight);
        own_cuts += 2 * block.weight;
    }
    own_cuts -= weights.front() + weights.back();
    std::sort(weights.begin(), weights.end());
    std::vector<double> merged;
    return step * std::max(0.0, huffman_of_rising(weights, 2, merged) - own_cuts);
}

}  // namespace

BlockBound block_bound(const Model& model, SuspectSets& sets, Weights& weights, const Standing& start,
                       std::uint64_t states) {
    if (model.goes_on || model.tests.empty() || !model.no_detour_is_shorter()) return {};
    const std::uint32_t elements = count_elements(model);
    const std::uint32_t each = elements_to_a_block(elements, states);
    if (each >= elements) return {};
    const auto line = line_order(model);
    const SuspectBlocks cut = cut_into_blocks(model, weights, line ? *line : by_element(model), each);
    Search search(model, sets, weights, model.family_masks, {0, Looks::AnyTime, 0});
    BlockBound bound;
    double allowance = 0;
    std::vector<SetId> blocks;
    intern_blocks(sets, cut.blocks, 0, cut.blocks.size(), IndexTable::none, blocks);
    for (const SetId block : blocks) {
        const StateId id = search.state(block, start);
        allowance += static_cast<double>(states) / static_cast<double>(blocks.size());
        search.allow(static_cast<std::uint64_t>(allowance));
        search.settle(id, Search::infinity);
        bound.minutes += search.lower(id);
    }
    if (line && cut.elements_apart && !model.isolating) bound.minutes += telling_apart(model, cut.blocks);
    bound.expansions = search.expansions();
    return bound;
}

}  // namespace halfsplit::plan
