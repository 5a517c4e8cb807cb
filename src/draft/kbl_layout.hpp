// The layout of a KBL: where parts sit, and how long the way of a wire is.
#pragma once

#include "draft/kbl_file.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace halfsplit::draft {

struct KblSpot {
    std::string node;                           // its name
    std::optional<std::array<double, 3>> at_m;  // metres
};

class KblLayout {
  public:
    explicit KblLayout(const KblFile& file);

    // Where the occurrence with this id sits; empty where no node refers to it.
    KblSpot spot(const std::string& id) const;
    // Length of the way of a connection over the segments, metres; 0 where it has none, or a segment of it
    // has no length.
    double way_m(const std::string& connection) const;
    // Whether the file says which segments the connection goes through.
    bool has_way(const std::string& connection) const { return ways_.contains(connection); }
    std::size_t nodes() const { return nodes_; }
    std::size_t segments() const { return segments_.size(); }

  private:
    void read_nodes(const KblFile& file);
    void read_segments(const KblFile& file);
    std::optional<std::array<double, 3>> point(const KblFile& file, const std::string& id) const;
    double straight_m(const KblFile& file, pugi::xml_node segment) const;

    double unit_m_ = 0.001;  // of coordinates
    std::size_t nodes_ = 0;
    std::unordered_map<std::string, KblSpot> spots_;                  // by id of the occurrence
    std::unordered_map<std::string, double> segments_;                // length by id
    std::unordered_map<std::string, std::vector<std::string>> ways_;  // segments by id of the connection
};

}  // namespace halfsplit::draft
