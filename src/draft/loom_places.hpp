// Places of a harness file from the layout of a loom: one for each node near which parts sit.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "draft/shapes.hpp"

#include <cstddef>
#include <map>
#include <string>
#include <vector>

namespace halfsplit::draft {

class LoomPlaces {
  public:
    LoomPlaces(const Loom& loom, const Shapes& shapes, std::vector<std::string>& assumed);

    // The members "places" and "travel".
    void write(nlohmann::ordered_json& document) const;
    // Id of the place of a part of the loom.
    const std::string& of(std::size_t part) const { return place_of_.at(part); }

  private:
    struct LoomPlace {
        std::string id, name;
        std::optional<std::array<double, 3>> at_m;
    };
    void add(const Loom& loom, std::size_t part, NameMaker& names);
    void say(const Loom& loom, std::vector<std::string>& assumed) const;

    std::vector<LoomPlace> places_;
    std::map<std::string, std::size_t> by_node_;
    std::map<std::size_t, std::string> place_of_;
    std::vector<std::size_t> unplaced_;
    std::vector<std::array<std::size_t, 2>> near_;  // places in reach of one another
};

}  // namespace halfsplit::draft
