// Runs of the document.
#include "halfsplit/draft/from_loom.hpp"

#include <fmt/format.h>

#include "draft/loom_document.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::draft {

namespace {

// Not 0: a run without length could never be suspected.
constexpr double joint_length_m = 0.01;

double to_millionths(double value) {
    return std::round(value * 1e6) / 1e6;
}

const char* letter_of(std::size_t line) {
    return line == 0 ? "h" : "l";
}

}  // namespace

void LoomDocument::write_run(const DraftedRun& drafted) {
    const std::size_t only = drafted.wire[0] == nowhere ? 1 : 0;
    const LoomWire& first = loom_.wires[drafted.wire[only]];
    Json run{{"id", drafted.id}};
    const bool alone = drafted.wire[1 - only] == nowhere;
    if (alone && !first.signal.empty() && first.signal != followed_.lines[only].name)
        run["name"] = fitting_words(called(first));
    run["network"] = network_;
    write_figures(drafted, run);
    run["access"] = access_to(first.ends[0].part);
    for (std::size_t line = 0; line < 2; ++line) {
        if (drafted.wire[line] == nowhere) continue;
        const LoomWire& wire = loom_.wires[drafted.wire[line]];
        Json strand{{"from", shapes_.terminal(line, wire.ends[0])},
                    {"to", shapes_.terminal(line, wire.ends[1])}};
        if (!wire.colour.base.empty()) strand.update(colour_entry(wire.colour));
        run[letter_of(line)] = std::move(strand);
    }
    add("runs", std::move(run), first.offset);
}

// The longer of the two; wires of one run have one section.
void LoomDocument::write_figures(const DraftedRun& drafted, Json& run) {
    double length = 0;
    double section = 0;
    bool twisted = false;
    for (const std::size_t index : drafted.wire) {
        if (index == nowhere) continue;
        const LoomWire& wire = loom_.wires[index];
        length = std::max(length, wire.length_m);
        section = wire.section_mm2;
        twisted = twisted || wire.twisted || !wire.group.empty();
        if (wire.length_m <= 0)
            assumed_.push_back(fmt::format("length of wire {}: {:.0f} m", wire.id, usual_length_m));
        if (wire.section_mm2 <= 0) assumed_.push_back("section of wire " + wire.id + ": 0.5 mm2");
    }
    run["length_m"] = length > 0 ? to_millionths(length) : usual_length_m;
    if (section > 0) run["section_mm2"] = to_millionths(section);
    const bool both = drafted.wire[0] != nowhere && drafted.wire[1] != nowhere;
    if (both && !twisted) run["twisted"] = false;
}

void LoomDocument::write_joint_runs() {
    for (const Joint& joint : shapes_.joints()) {
        const std::string from = joint.id + (joint.line == 0 ? ":H" : ":L");
        Json run{{"id", names_.id(joint.id + "-tail", "tail")},
                 {"note", "no wire of its own: from the crimp into the contact"},
                 {"network", network_},
                 {"length_m", joint_length_m},
                 {"access", access_to(joint.part)}};
        run[letter_of(joint.line)] = {{"from", from},
                                      {"to", shapes_.own_terminal(joint.line, {joint.part, joint.cavity})}};
        add("runs", std::move(run), loom_.parts[joint.part].offset);
    }
}

}  // namespace halfsplit::draft
