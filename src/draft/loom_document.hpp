// The document of a harness file that followed wires become.
#pragma once

#include <nlohmann/json.hpp>

#include "draft/follow.hpp"
#include "draft/loom_places.hpp"
#include "draft/names.hpp"
#include "draft/runs.hpp"
#include "draft/shapes.hpp"
#include "draft/source.hpp"

#include <cstddef>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace halfsplit::draft {

class LoomDocument {
  public:
    // Where each part and run stands in the source goes into `origins`, what was assumed into `assumed`.
    LoomDocument(const Loom& loom, const Followed& followed, const LineChoice& choice, SourceOrigins& origins,
                 std::vector<std::string>& assumed);

    nlohmann::ordered_json write();

    // Wires that are in the file only because they share a connector's half with a followed one.
    const std::set<std::size_t>& neighbours() const { return neighbours_; }

  private:
    using Json = nlohmann::ordered_json;

    bool pair() const { return followed_.lines.size() == 2; }
    Json named(const std::string& id, const LoomPart& part, const std::string& more = {}) const;
    Json access_to(std::size_t part) const { return {{"place", places_.of(part)}}; }
    void add(const char* list, Json entry, std::size_t offset);

    void write_network();
    void set_clip();
    void say_of_wires();
    std::pair<double, double> heaviest_wire(const ShapedPart& part) const;

    // In loom_document_parts.cpp.
    void write_part(const ShapedPart& part);
    Json pins(const ShapedPart& part, std::size_t contact);
    void write_modules(const ShapedPart& part);
    void write_connector(const ShapedPart& part);
    void add_neighbours(std::size_t half, const ShapedPart& part, const std::string& letter, Json& list);
    void write_joints();

    // In loom_document_runs.cpp.
    void write_run(const DraftedRun& drafted);
    void write_figures(const DraftedRun& drafted, Json& run);
    void write_joint_runs();

    const Loom& loom_;
    const Followed& followed_;
    SourceOrigins& origins_;
    std::vector<std::string>& assumed_;
    std::vector<std::vector<std::size_t>> wires_at_;  // by part of the loom
    NameMaker names_;
    Shapes shapes_;
    LoomPlaces places_;
    std::string network_;
    Json document_;
    std::set<std::size_t> neighbours_;
};

// Base, and stripe where there is one.
nlohmann::ordered_json colour_entry(const harness::Colour& colour);

}  // namespace halfsplit::draft
