#include "draft/loom_document.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace halfsplit::draft {

namespace {

constexpr std::size_t longest_line_name = 40;  // docs/schema/harness.schema.json

constexpr std::array<const char*, 3> loom_lists{{"modules", "connectors", "splices"}};

std::vector<std::vector<std::size_t>> wires_by_part(const Loom& loom) {
    std::vector<std::vector<std::size_t>> result(loom.parts.size());
    for (std::size_t wire = 0; wire < loom.wires.size(); ++wire) {
        for (const LoomEnd& end : loom.wires[wire].ends) {
            if (end.part != nowhere) result[end.part].push_back(wire);
        }
    }
    return result;
}

}  // namespace

LoomDocument::LoomDocument(const Loom& loom, const Followed& followed, const LineChoice& choice,
                           SourceOrigins& origins, std::vector<std::string>& assumed)
    : loom_(loom),
      followed_(followed),
      origins_(origins),
      assumed_(assumed),
      wires_at_(wires_by_part(loom)),
      shapes_(loom, followed, names_),
      places_(loom, shapes_, assumed) {
    NameMaker network;
    network_ = network.id(choice.network.empty() ? followed.lines.front().name : choice.network, "line");
}

nlohmann::ordered_json LoomDocument::write() {
    document_["format"] = "halfsplit-harness";
    document_["version"] = 1;
    if (!loom_.title.empty()) document_["title"] = fitting_words(loom_.title);
    write_network();
    places_.write(document_);
    for (const char* list : loom_lists) document_[list] = Json::array();
    for (const ShapedPart& part : shapes_.parts()) write_part(part);
    write_joints();
    document_["runs"] = Json::array();
    say_of_wires();
    for (const DraftedRun& run : drafted_runs(loom_, followed_, names_)) write_run(run);
    write_joint_runs();
    for (const char* list : loom_lists) {
        if (document_[list].empty()) document_.erase(list);
    }
    set_clip();
    return std::move(document_);
}

void LoomDocument::write_network() {
    const std::string& high = followed_.lines[0].name;
    Json network{{"id", network_}};
    Json lines{{"h", cut_to(high, longest_line_name)}};
    if (pair()) {
        const std::string& low = followed_.lines[1].name;
        network["name"] = fitting_words(high + " and " + low);
        lines["l"] = cut_to(low, longest_line_name);
        assumed_.emplace_back("ISO 11898-2, 500 kbit/s: the source does not say what bus it is");
        assumed_.emplace_back("no terminators: add \"terminator\" to the modules that hold them");
    } else {
        network["name"] = fitting_words(high);
        network["kind"] = "single-line";
        assumed_.emplace_back(
            "25 kohm to ground in each part where the line ends: state \"load_ohm\" where it is known");
    }
    network["lines"] = std::move(lines);
    document_["networks"] = Json::array({std::move(network)});
}

// With the source's own id where it had to be written in another way.
nlohmann::ordered_json LoomDocument::named(const std::string& id, const LoomPart& part,
                                           const std::string& more) const {
    std::string name = part.name.empty() || part.id != id ? part.id : std::string();
    if (!part.name.empty()) name += (name.empty() ? "" : ", ") + part.name;
    return {{"id", id}, {"name", fitting_words(name + more)}};
}

void LoomDocument::add(const char* list, Json entry, std::size_t offset) {
    origins_.place(fmt::format("/{}/{}", list, document_[list].size()), offset);
    document_[list].push_back(std::move(entry));
}

void LoomDocument::say_of_wires() {
    for (const FollowedLine& line : followed_.lines) {
        for (const std::size_t wire : line.wires) {
            if (!loom_.wires[wire].assumed.empty()) assumed_.push_back(loom_.wires[wire].assumed);
        }
    }
}

// Section and length of the heaviest followed wire at a part.
std::pair<double, double> LoomDocument::heaviest_wire(const ShapedPart& part) const {
    std::pair<double, double> heaviest;
    for (const std::size_t wire : wires_at_[part.part]) {
        const LoomWire& it = loom_.wires[wire];
        if (followed_.unused[wire].empty()) heaviest = std::max(heaviest, {it.section_mm2, it.length_m});
    }
    return heaviest;
}

// What feeds a line is taken to be where its heaviest wire ends, of those alike the longest. On a bus it is
// the part with most wires of the loom, which is mostly reached more easily than others.
void LoomDocument::set_clip() {
    const ShapedPart* best = nullptr;
    const auto rank = [&](const ShapedPart& part) {
        return std::pair(pair() ? std::pair(0.0, 0.0) : heaviest_wire(part), wires_at_[part.part].size());
    };
    for (const ShapedPart& part : shapes_.parts()) {
        if (part.shape == Shape::Modules && (best == nullptr || rank(part) > rank(*best))) best = &part;
    }
    if (best == nullptr) return;
    const Json at = pins(*best, 0);
    std::string point = best->ids.front() + ':' + at["h"].get<std::string>();
    if (pair()) point += '/' + at["l"].get<std::string>();
    document_["networks"][0]["clip"] = point;
    document_["start"] = places_.of(best->part);
    assumed_.push_back(fmt::format("the work and the clip begin at {}, in the part with {}", point,
                                   pair() ? "most wires" : "the heaviest wire of the line"));
}

nlohmann::ordered_json colour_entry(const harness::Colour& colour) {
    nlohmann::ordered_json result{{"base", colour.base}};
    if (!colour.stripe.empty()) result["stripe"] = colour.stripe;
    return result;
}

}  // namespace halfsplit::draft
