#include "draft/loom_places.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/draft/from_loom.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace halfsplit::draft {

namespace {

constexpr std::size_t most_places = 200;  // docs/reference/harness-format.md
constexpr const char* unknown_place = "unknown";

double apart_m(const std::array<double, 3>& a, const std::array<double, 3>& b) {
    return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

}  // namespace

LoomPlaces::LoomPlaces(const Loom& loom, const Shapes& shapes, std::vector<std::string>& assumed) {
    NameMaker names;
    names.id(unknown_place, unknown_place);
    for (const ShapedPart& part : shapes.parts()) {
        add(loom, part.part, names);
        const std::size_t mate = loom.parts[part.part].mate;
        if (mate != nowhere) add(loom, mate, names);
    }
    for (std::size_t a = 0; a < places_.size(); ++a) {
        for (std::size_t b = a + 1; b < places_.size(); ++b) {
            const auto& one = places_[a].at_m;
            const auto& other = places_[b].at_m;
            if (one && other && apart_m(*one, *other) <= arms_reach_m) near_.push_back({a, b});
        }
    }
    say(loom, assumed);
}

void LoomPlaces::add(const Loom& loom, std::size_t part, NameMaker& names) {
    const LoomPart& it = loom.parts[part];
    const bool known = by_node_.contains(it.node);
    if (it.node.empty() || (!known && places_.size() + 1 >= most_places)) {
        unplaced_.push_back(part);
        place_of_[part] = unknown_place;
        return;
    }
    const auto [entry, fresh] = by_node_.try_emplace(it.node, places_.size());
    if (fresh) places_.push_back({names.id(it.node, "node"), "near node " + it.node + ':', it.at_m});
    LoomPlace& place = places_[entry->second];
    place.name += (place.name.back() == ':' ? " " : ", ") + it.id;
    place_of_[part] = place.id;
}

void LoomPlaces::say(const Loom& loom, std::vector<std::string>& assumed) const {
    if (!unplaced_.empty()) {
        std::vector<std::string> ids;
        for (const std::size_t part : unplaced_) ids.push_back(loom.parts[part].id);
        constexpr std::size_t shown = 12;
        const std::size_t more = ids.size() > shown ? ids.size() - shown : 0;
        if (more > 0) ids.resize(shown);
        assumed.push_back("place \"unknown\", where the source says none: " + join(ids, ", ") +
                          (more > 0 ? fmt::format(" and {} more", more) : ""));
    }
    if (!places_.empty())
        assumed.push_back(fmt::format(
            "2 minutes from place to place, none between nodes less than {:.0f} m apart", arms_reach_m));
    assumed.emplace_back("no covers: nothing says what has to come off to get at a part; add it");
}

void LoomPlaces::write(nlohmann::ordered_json& document) const {
    using nlohmann::ordered_json;
    ordered_json list = ordered_json::array();
    for (const LoomPlace& place : places_)
        list.push_back({{"id", place.id}, {"name", fitting_words(place.name)}});
    if (!unplaced_.empty())
        list.push_back({{"id", unknown_place}, {"name", "where the source does not say"}});
    document["places"] = std::move(list);
    if (near_.empty()) return;
    ordered_json pairs = ordered_json::array();
    for (const auto& [a, b] : near_)
        pairs.push_back({{"between", {places_[a].id, places_[b].id}}, {"minutes", 0}});
    document["travel"] = {{"default_minutes", 2}, {"pairs", std::move(pairs)}};
}

}  // namespace halfsplit::draft
