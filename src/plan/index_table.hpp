// An open-addressing table of indices into some vector: the caller hashes and compares, so the things
// themselves lie side by side where they are worked on.
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

namespace halfsplit::plan {

class IndexTable {
  public:
    static constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();

    // The index that `same(index)` holds for among those under `hash`, or `none`.
    template <typename Same>
    std::uint32_t find(std::uint64_t hash, Same same) const {
        for (std::size_t slot = hash & (slots_.size() - 1);; slot = (slot + 1) & (slots_.size() - 1)) {
            const Slot& entry = slots_[slot];
            if (entry.index == none) return none;
            if (entry.tag == tag(hash) && same(entry.index)) return entry.index;
        }
    }

    // `hash_of(index)` must give again the hash each index came with.
    template <typename HashOf>
    void insert(std::uint64_t hash, std::uint32_t index, HashOf hash_of) {
        if (++used_ * 2 > slots_.size()) grow(hash_of);
        put(hash, index);
    }

  private:
    struct Slot {
        std::uint32_t index = none;
        std::uint32_t tag = 0;
    };
    static std::uint32_t tag(std::uint64_t hash) { return static_cast<std::uint32_t>(hash >> 32U); }

    void put(std::uint64_t hash, std::uint32_t index) {
        std::size_t slot = hash & (slots_.size() - 1);
        while (slots_[slot].index != none) slot = (slot + 1) & (slots_.size() - 1);
        slots_[slot] = {index, tag(hash)};
    }
    template <typename HashOf>
    void grow(HashOf hash_of) {
        std::vector<Slot> old(slots_.size() * 2);
        old.swap(slots_);
        for (const Slot& entry : old)
            if (entry.index != none) put(hash_of(entry.index), entry.index);
    }

    std::vector<Slot> slots_ = std::vector<Slot>(1024);
    std::size_t used_ = 0;
};

// One round of a multiply-and-fold mix; good enough in its low and in its high bits for the table above.
inline std::uint64_t mix(std::uint64_t hash, std::uint64_t value) {
    hash = (hash ^ value) * 0x9e3779b97f4a7c15U;
    return hash ^ hash >> 29U;
}

inline std::uint64_t hash_of(std::span<const std::uint64_t> words) {
    std::uint64_t hash = words.size();
    for (const std::uint64_t word : words) hash = mix(hash, word);
    return hash ^ hash >> 32U;
}

}  // namespace halfsplit::plan
