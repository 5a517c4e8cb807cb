// The backbone of a network - the ways between its terminators, and any ring - and how far off it things are.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include "harness/links.hpp"

#include <cstdint>
#include <unordered_map>
#include <vector>

namespace halfsplit::harness {

class Backbone {
  public:
    // `links` of one line of one network; `ends` are the terminals where a terminator sits. Linear.
    Backbone(const std::vector<Link>& links, const std::vector<Index>& ends);

    // Fewer than two ends and no ring leave no backbone, and then nothing is a stub.
    bool exists() const { return length_links_ > 0; }
    bool has_ring() const { return ring_; }
    double length_m() const { return length_m_; }
    double stubs_m() const { return stubs_m_; }  // of wire off the backbone, all together
    // Metres of wire from the backbone; 0 on it, and where nothing leads to it.
    double distance_m(Index terminal) const;

  private:
    struct Node {
        std::vector<std::size_t> links;
        std::size_t degree = 0;
        bool end = false, off = false;
        double distance_m = 0;
    };
    void take_off_branches();
    void measure_core();
    void measure_branches();
    Index across(std::size_t link, Index node) const;

    std::vector<Link> links_;
    std::unordered_map<Index, Node> nodes_;
    std::size_t length_links_ = 0;
    double length_m_ = 0, stubs_m_ = 0;
    bool ring_ = false;
};

}  // namespace halfsplit::harness
