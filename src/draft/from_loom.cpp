#include "halfsplit/draft/from_loom.hpp"

#include "halfsplit/harness/read.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/collector.hpp"
#include "draft/follow.hpp"
#include "draft/loom_places.hpp"
#include "draft/names.hpp"
#include "draft/runs.hpp"
#include "draft/shapes.hpp"
#include "draft/source.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace halfsplit::draft {

namespace {

using nlohmann::ordered_json;

constexpr std::size_t longest_name_words = 200;  // docs/harness-format.md, "Limits"
constexpr std::size_t longest_line_name = 40;

class LoomDocument {
  public:
    LoomDocument(const Loom& loom, const Followed& followed, const LineChoice& choice, SourceOrigins& origins,
                 std::vector<std::string>& assumed)
        : loom_(loom),
          followed_(followed),
          origins_(origins),
          assumed_(assumed),
          shapes_(loom, followed, names_),
          places_(loom, shapes_, assumed) {
        NameMaker network;
        network_ = network.id(choice.network.empty() ? followed.lines.front().name : choice.network, "line");
    }

    ordered_json write() {
        document_["format"] = "halfsplit-harness";
        document_["version"] = 1;
        if (!loom_.title.empty()) document_["title"] = cut_to(loom_.title, longest_name_words);
        write_network();
        places_.write(document_);
        for (const char* list : {"modules", "connectors", "splices"}) document_[list] = ordered_json::array();
        for (const ShapedPart& part : shapes_.parts()) write_part(part);
        write_joints();
        document_["runs"] = ordered_json::array();
        for (const DraftedRun& run : drafted_runs(loom_, followed_, names_)) write_run(run);
        write_joint_runs();
        for (const char* list : {"modules", "connectors", "splices"}) {
            if (document_[list].empty()) document_.erase(list);
        }
        set_clip();
        return std::move(document_);
    }

    // What the loom's wires became, for what is told of those that stand beside them.
    const std::set<std::size_t>& neighbours() const { return neighbours_; }

  private:
    bool pair() const { return followed_.lines.size() == 2; }

    void write_network() {
        ordered_json network{{"id", network_}};
        ordered_json names{{"h", cut_to(followed_.lines[0].name, longest_line_name)}};
        if (pair()) {
            names["l"] = cut_to(followed_.lines[1].name, longest_line_name);
            assumed_.emplace_back("ISO 11898-2, 500 kbit/s: the source does not say what bus it is");
            assumed_.emplace_back("no terminators: add \"terminator\" to the modules that hold them");
        } else {
            network["kind"] = "single-line";
            assumed_.emplace_back("25 kohm to ground in each part where the line ends: state \"load_ohm\" where it is known");
        }
        network["lines"] = std::move(names);
        document_["networks"] = ordered_json::array({std::move(network)});
    }

    ordered_json named(const std::string& id, const LoomPart& part, const std::string& more = {}) const {
        std::string name = part.id;
        if (!part.name.empty()) name += ", " + part.name;
        return {{"id", id}, {"name", cut_to(name + more, longest_name_words)}};
    }

    ordered_json access_to(std::size_t part) const { return {{"place", places_.of(part)}}; }

    void add(const char* list, ordered_json entry, std::size_t offset) {
        origins_.place(fmt::format("/{}/{}", list, document_[list].size()), offset);
        document_[list].push_back(std::move(entry));
    }

    void write_part(const ShapedPart& part) {
        const LoomPart& it = loom_.parts[part.part];
        if (part.shape == Shape::Splice) {
            ordered_json splice = named(part.ids.front(), it);
            splice["network"] = network_;
            splice["access"] = access_to(part.part);
            add("splices", std::move(splice), it.offset);
        } else if (part.shape == Shape::Connector) {
            write_connector(part);
        } else {
            write_modules(part);
        }
    }

    // The cavities of the contacts with these numbers, by line.
    ordered_json pins(const ShapedPart& part, std::size_t contact) {
        ordered_json result;
        for (std::size_t line = 0; line < followed_.lines.size(); ++line)
            result[line == 0 ? "h" : "l"] = names_.cavity(part.part, part.contacts[line][contact]);
        return result;
    }

    void write_modules(const ShapedPart& part) {
        const LoomPart& it = loom_.parts[part.part];
        for (std::size_t contact = 0; contact < part.ids.size(); ++contact) {
            const std::string more =
                part.ids.size() > 1 ? ", cavity " + part.contacts[0][contact] : std::string();
            ordered_json module = named(part.ids[contact], it, more);
            module["access"] = access_to(part.part);
            ordered_json bus{{"network", network_}, {"attach", part.shape == Shape::Loop ? "loop" : "spur"}};
            bus[part.shape == Shape::Loop ? "in" : "pins"] = pins(part, contact);
            if (part.shape == Shape::Loop) bus["out"] = pins(part, contact + 1);
            module["buses"] = ordered_json::array({std::move(bus)});
            add("modules", std::move(module), it.offset);
        }
        if (part.ids.size() > 1)
            assumed_.push_back(
                fmt::format("{} has {} contacts of the line and stands here once for each: unplugging one "
                            "unplugs them all",
                            it.id, part.ids.size()));
    }

    void write_connector(const ShapedPart& part) {
        const LoomPart& it = loom_.parts[part.part];
        ordered_json connector = named(part.ids.front(), it);
        ordered_json other_wires = ordered_json::array();
        ordered_json halves;
        for (const std::size_t half : {part.part, it.mate}) {
            if (half == nowhere) continue;
            const LoomPart& one = loom_.parts[half];
            const std::string letter(1, one.half == 0 ? 'a' : one.half);
            if (it.mate != nowhere) {
                halves[letter] = {{"name", named("", one)["name"]}};
                if (half != part.part && places_.of(half) != places_.of(part.part))
                    halves[letter]["access"] = access_to(half);
            }
            add_neighbours(half, part, letter, other_wires);
        }
        connector["access"] = access_to(part.part);
        if (it.mate != nowhere) {
            connector["name"] = cut_to(it.connector, longest_name_words);
            connector["halves"] = std::move(halves);
        }
        if (!other_wires.empty()) connector["other_wires"] = std::move(other_wires);
        add("connectors", std::move(connector), it.offset);
    }

    // Wires of other lines in the same half, one for each cavity.
    void add_neighbours(std::size_t half, const ShapedPart& part, const std::string& letter,
                        ordered_json& list) {
        std::set<std::string> taken;
        for (const auto& contacts : part.contacts) taken.insert(contacts.begin(), contacts.end());
        for (std::size_t wire = 0; wire < loom_.wires.size(); ++wire) {
            const LoomWire& it = loom_.wires[wire];
            for (const LoomEnd& end : it.ends) {
                if (end.part != half || followed_.unused[wire].empty() || !it.unusable.empty()) continue;
                if (list.size() == most_neighbours || !taken.insert(end.cavity).second) continue;
                ordered_json other{
                    {"half", letter},
                    {"cavity", names_.cavity(part.part, end.cavity)},
                    {"circuit", cut_to(it.signal.empty() ? "wire " + it.id : it.signal, longest_name_words)}};
                if (!it.colour.base.empty()) other["colour"] = colour(it.colour);
                list.push_back(std::move(other));
                neighbours_.insert(wire);
            }
        }
    }

    static ordered_json colour(const harness::Colour& colour) {
        ordered_json result{{"base", colour.base}};
        if (!colour.stripe.empty()) result["stripe"] = colour.stripe;
        return result;
    }

    void write_joints() {
        for (const Joint& joint : shapes_.joints()) {
            const LoomPart& it = loom_.parts[joint.part];
            const std::string where = (joint.cavity.empty() ? "" : "cavity " + joint.cavity + " of ") + it.id;
            ordered_json splice{{"id", joint.id},
                                {"name", cut_to("wires crimped together in " + where, longest_name_words)},
                                {"network", network_},
                                {"access", access_to(joint.part)}};
            add("splices", std::move(splice), it.offset);
            assumed_.push_back("several wires in " + where + ": drawn as splice " + joint.id +
                               " with 0 m to the cavity");
        }
    }

    void write_joint_runs() {
        for (const Joint& joint : shapes_.joints()) {
            const LoomEnd end{joint.part, joint.cavity};
            const char* line = joint.line == 0 ? "h" : "l";
            ordered_json run{{"id", names_.id(joint.id + "-tail", "tail")},
                             {"note", "no wire of its own: from the crimp into the contact"},
                             {"network", network_},
                             {"length_m", 0.01},
                             {"access", access_to(joint.part)}};
            run[line] = {{"from", joint.id + (joint.line == 0 ? ":H" : ":L")},
                         {"to", shapes_.own_terminal(joint.line, end)}};
            add("runs", std::move(run), loom_.parts[joint.part].offset);
        }
    }

    void write_run(const DraftedRun& drafted) {
        const LoomWire& first = loom_.wires[drafted.wire[drafted.wire[0] == nowhere ? 1 : 0]];
        ordered_json run{{"id", drafted.id}};
        if (!pair() || drafted.wire[1] == nowhere || drafted.wire[0] == nowhere) {
            if (!first.signal.empty() &&
                first.signal != followed_.lines[drafted.wire[0] == nowhere ? 1 : 0].name)
                run["name"] = cut_to(called(first), longest_name_words);
        }
        run["network"] = network_;
        write_figures(drafted, first, run);
        run["access"] = access_to(first.ends[0].part);
        for (std::size_t line = 0; line < 2; ++line) {
            if (drafted.wire[line] == nowhere) continue;
            const LoomWire& wire = loom_.wires[drafted.wire[line]];
            ordered_json strand{{"from", shapes_.terminal(line, wire.ends[0])},
                                {"to", shapes_.terminal(line, wire.ends[1])}};
            strand.update(wire.colour.base.empty() ? ordered_json::object() : colour(wire.colour));
            run[line == 0 ? "h" : "l"] = std::move(strand);
        }
        add("runs", std::move(run), first.offset);
    }

    void write_figures(const DraftedRun& drafted, const LoomWire& first, ordered_json& run) {
        double length = 0;
        bool twisted = false;
        for (const std::size_t wire : drafted.wire) {
            if (wire == nowhere) continue;
            length = std::max(length, loom_.wires[wire].length_m);
            twisted = twisted || loom_.wires[wire].twisted || !loom_.wires[wire].group.empty();
            if (loom_.wires[wire].length_m <= 0)
                assumed_.push_back(
                    fmt::format("length of wire {}: {:.0f} m", loom_.wires[wire].id, usual_length_m));
            if (loom_.wires[wire].section_mm2 <= 0)
                assumed_.push_back(fmt::format("section of wire {}: 0.5 mm2", loom_.wires[wire].id));
        }
        run["length_m"] = length > 0 ? std::round(length * 1000) / 1000 : usual_length_m;
        if (first.section_mm2 > 0) run["section_mm2"] = std::round(first.section_mm2 * 1000) / 1000;
        if (pair() && drafted.wire[0] != nowhere && drafted.wire[1] != nowhere && !twisted)
            run["twisted"] = false;
    }

    // At the module with most wires of the whole loom: what a loom is plugged into is there, and mostly
    // reached more easily than what it feeds.
    void set_clip() {
        if (!document_.contains("modules")) return;
        std::vector<std::size_t> wires(loom_.parts.size());
        for (const LoomWire& wire : loom_.wires) {
            for (const LoomEnd& end : wire.ends) {
                if (end.part != nowhere) ++wires[end.part];
            }
        }
        const ShapedPart* best = nullptr;
        for (const ShapedPart& part : shapes_.parts()) {
            const bool module = part.shape == Shape::Modules || part.shape == Shape::Loop;
            if (module && (best == nullptr || wires[part.part] > wires[best->part])) best = &part;
        }
        if (best == nullptr) return;
        const ordered_json at = pins(*best, 0);
        std::string point = best->ids.front() + ':' + at["h"].get<std::string>();
        if (pair()) point += '/' + at["l"].get<std::string>();
        document_["networks"][0]["clip"] = point;
        assumed_.push_back("the clip begins at " + point + ", in the part with most wires of the loom");
    }

    static constexpr std::size_t most_neighbours = 1000;
    const Loom& loom_;
    const Followed& followed_;
    SourceOrigins& origins_;
    std::vector<std::string>& assumed_;
    NameMaker names_;
    Shapes shapes_;
    LoomPlaces places_;
    std::string network_;
    ordered_json document_;
    std::set<std::size_t> neighbours_;
};

}  // namespace

Drafted draft_network(const Loom& loom, std::string_view choice, std::string_view text,
                      const std::string& file_name) {
    Drafted result;
    SourceOrigins origins(text, file_name);
    Collector findings;
    const LineChoice lines = read_choice(loom, choice);
    const Followed followed = follow(loom, lines, findings);
    result.findings = findings.placed(origins);
    if (findings.errors()) return result;
    result.assumed = loom.assumed;
    result.assumed.insert(result.assumed.end(), followed.assumed.begin(), followed.assumed.end());
    LoomDocument document(loom, followed, lines, origins, result.assumed);
    const ordered_json json = document.write();
    harness::ReadResult read = harness::read_document(nlohmann::json(json), origins);
    result.findings.insert(result.findings.end(), read.findings.begin(), read.findings.end());
    if (read.harness) result.json = json.dump(2) + '\n';
    for (std::size_t wire = 0; wire < loom.wires.size(); ++wire) {
        if (followed.unused[wire].empty()) continue;
        result.left_out.push_back(called(loom.wires[wire]) + ": " + followed.unused[wire] +
                                  (document.neighbours().contains(wire) ? "; kept as a neighbour" : ""));
    }
    result.left_out.insert(result.left_out.end(), loom.left_out.begin(), loom.left_out.end());
    return result;
}

}  // namespace halfsplit::draft
