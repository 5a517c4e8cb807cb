#include "halfsplit/access/costs.hpp"

#include <stdexcept>

namespace halfsplit::access {

using harness::Harness;
using harness::Index;
using harness::none;

namespace {

// Marks a cover and all that lies over it.
void mark(const Harness& harness, Index cover, std::vector<char>& wanted) {
    std::vector<Index> waiting{cover};
    while (!waiting.empty()) {
        const Index next = waiting.back();
        waiting.pop_back();
        if (wanted[next] != 0) continue;
        wanted[next] = 1;
        waiting.insert(waiting.end(), harness.covers[next].under.begin(), harness.covers[next].under.end());
    }
}

// Whether the part is on the network; a connector is when a pair of the network passes through it.
std::vector<char> parts_of(const Harness& harness, Index network) {
    std::vector<char> result(harness.parts.size(), 0);
    for (const harness::Point& point : harness.points) {
        if (point.network == network) result[point.part] = 1;
    }
    for (Index part = 0; part < harness.parts.size(); ++part) {
        if (harness.parts[part].network == network) result[part] = 1;
        for (const auto& attachment : harness.parts[part].attachments) {
            if (attachment.network == network) result[part] = 1;
        }
    }
    return result;
}

std::vector<char> wanted_covers(const Harness& harness, Index network) {
    std::vector<char> wanted(harness.covers.size(), 0);
    const auto mark_all = [&](const harness::Access& access) {
        for (const Index cover : access.covers) mark(harness, cover, wanted);
    };
    const std::vector<char> ours = parts_of(harness, network);
    for (Index index = 0; index < harness.parts.size(); ++index) {
        const harness::Part& part = harness.parts[index];
        if (ours[index] == 0) continue;
        mark_all(part.access);
        for (const auto& half : part.half_access) {
            if (half) mark_all(*half);
        }
    }
    return wanted;
}

}  // namespace

Costs::Costs(const Harness& harness, Index network)
    : harness_(harness), bit_of_cover_(harness.covers.size(), none) {
    const std::vector<char> wanted = wanted_covers(harness, network);
    for (Index cover = 0; cover < harness.covers.size(); ++cover) {
        if (wanted[cover] == 0) continue;
        bit_of_cover_[cover] = cover_of_bit_.size();
        cover_of_bit_.push_back(cover);
    }
    if (cover_of_bit_.size() > most_covers) {
        throw std::invalid_argument("more than 64 covers stand before the parts of one network");
    }
    std::vector<Cover> covers;
    for (const Index cover : cover_of_bit_) {
        const harness::Cover& own = harness.covers[cover];
        covers.push_back({own.off_minutes, own.on_minutes, set_of(own.under)});
    }
    workshop_ = Workshop(std::move(covers), harness.places.size(), harness.travel.minutes);
}

Site Costs::site(const harness::Access& access, double minutes) const {
    return {access.place, workshop_.closure(set_of(access.covers)), minutes};
}

Site Costs::probe(Index terminal) const {
    const harness::Access& access = access_of(harness_, terminal);
    return site(access, access.probe_minutes);
}

Site Costs::look(Index part) const {
    const harness::Access& access = harness_.parts[part].access;
    return site(access, access.look_minutes);
}

Site Costs::clip(Index point) const {
    return site(access_of(harness_, harness_.points[point].terminal[0]), harness_.assumptions.clip_minutes);
}

CoverSet Costs::set_of(const std::vector<Index>& covers) const {
    CoverSet set = 0;
    for (const Index cover : covers) {
        if (bit_of_cover_[cover] != none) set |= CoverSet{1} << bit_of_cover_[cover];
    }
    return set;
}

std::vector<Index> Costs::in_order(CoverSet covers) const {
    std::vector<Index> order;
    CoverSet done = 0;
    // Each pass takes what has nothing of the set left over it.
    while (done != covers) {
        const CoverSet before = done;
        for (std::size_t bit = 0; bit < cover_of_bit_.size(); ++bit) {
            const CoverSet self = CoverSet{1} << bit;
            if ((covers & self) == 0 || (done & self) != 0) continue;
            const CoverSet over = set_of(harness_.covers[cover_of_bit_[bit]].under) & covers;
            if ((over & ~done) != 0) continue;
            order.push_back(cover_of_bit_[bit]);
            done |= self;
        }
        if (done == before) break;
    }
    return order;
}

}  // namespace halfsplit::access
