#include "draft/kbl_layout.hpp"

#include "draft/kbl_values.hpp"

#include <cmath>
#include <utility>

namespace halfsplit::draft {

KblLayout::KblLayout(const KblFile& file) {
    read_nodes(file);
    read_segments(file);
    for (const pugi::xml_node routing : file.root().children("Routing"))
        ways_.emplace(kbl_text(routing, "Routed_wire"), kbl_references(routing, "Segments"));
}

// Coordinates carry no unit in KBL; millimetres are what the examples of the association hold.
std::optional<std::array<double, 3>> KblLayout::point(const KblFile& file, const std::string& id) const {
    std::array<double, 3> at{};
    std::size_t count = 0;
    for (const pugi::xml_node coordinate : file.find(id).children("Coordinates")) {
        const std::optional<double> number = kbl_number(coordinate.child_value());
        if (!number || count == 3) return std::nullopt;
        at[count++] = *number * unit_m_;
    }
    if (count < 2) return std::nullopt;
    return at;
}

void KblLayout::read_nodes(const KblFile& file) {
    for (const pugi::xml_node node : file.root().children("Node")) {
        ++nodes_;
        const KblSpot spot{kbl_text(node, "Id"), point(file, kbl_text(node, "Cartesian_point"))};
        for (const std::string& component : kbl_references(node, "Referenced_components"))
            spots_.emplace(component, spot);
    }
}

double KblLayout::straight_m(const KblFile& file, pugi::xml_node segment) const {
    const auto from = point(file, kbl_text(file.find(kbl_text(segment, "Start_node")), "Cartesian_point"));
    const auto to = point(file, kbl_text(file.find(kbl_text(segment, "End_node")), "Cartesian_point"));
    if (!from || !to) return 0;
    return std::hypot((*from)[0] - (*to)[0], (*from)[1] - (*to)[1], (*from)[2] - (*to)[2]);
}

// The length that was made, else the one that was drawn, else the way as the crow flies.
void KblLayout::read_segments(const KblFile& file) {
    for (const pugi::xml_node segment : file.root().children("Segment")) {
        double length = kbl_figure(file, segment, "Physical_length");
        if (length <= 0) length = kbl_figure(file, segment, "Virtual_length");
        if (length <= 0) length = straight_m(file, segment);
        segments_.emplace(segment.attribute("id").value(), length);
    }
}

KblSpot KblLayout::spot(const std::string& id) const {
    const auto found = spots_.find(id);
    return found == spots_.end() ? KblSpot{} : found->second;
}

double KblLayout::way_m(const std::string& connection) const {
    const auto way = ways_.find(connection);
    if (way == ways_.end()) return 0;
    double sum = 0;
    for (const std::string& id : way->second) {
        const auto segment = segments_.find(id);
        if (segment == segments_.end() || segment->second <= 0) return 0;
        sum += segment->second;
    }
    return sum;
}

}  // namespace halfsplit::draft
