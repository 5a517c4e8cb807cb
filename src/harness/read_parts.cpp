// What all parts have in common.
#include "halfsplit/base/text.hpp"

#include "harness/colours.hpp"
#include "harness/reading.hpp"

#include <array>
#include <utility>

namespace halfsplit::harness {

namespace {

struct List {
    const char* name;
    PartKind kind;
};

constexpr std::array<List, 6> lists{{{"modules", PartKind::Module},
                                     {"connectors", PartKind::Connector},
                                     {"splices", PartKind::Splice},
                                     {"terminators", PartKind::Terminator},
                                     {"bridge_plugs", PartKind::BridgePlug},
                                     {"runs", PartKind::Run}}};

void enter_part(const Member& member, PartKind kind, Reading& reading) {
    Part part;
    part.kind = kind;
    part.id = member.text("id");
    part.name = member.text("name", part.id);
    part.note = member.text("note");
    part.pointer = member.pointer();
    reading.parts.enter(member, reading.harness.parts.size(), reading.findings, &reading.options);
    reading.harness.parts.push_back(std::move(part));
    reading.part_members.push_back(member);
}

// The others say for each of their connections which network it is.
bool belongs_to_one_network(PartKind kind) {
    return kind != PartKind::Socket && kind != PartKind::Module && kind != PartKind::Connector;
}

Marks read_marks(const Member& list) {
    Marks marks;
    for (const Member& entry : list.entries()) {
        const std::string mark = entry.text();
        marks.flexing = marks.flexing || mark == "flexing";
        marks.wet = marks.wet || mark == "wet";
        marks.worked_on = marks.worked_on || mark == "worked-on";
        marks.add_on = marks.add_on || mark == "add-on";
        marks.unverified = marks.unverified || mark == "unverified";
    }
    return marks;
}

Fitted read_fitted(const Member& fitted, Reading& reading, Part& part) {
    if (fitted.is_text()) {
        const std::string word = fitted.text();
        if (word == "no") return Fitted::No;
        return word == "unknown" ? Fitted::Unknown : Fitted::Yes;
    }
    if (!fitted.is_object()) return Fitted::Yes;
    const bool with = fitted.has("option");
    if (with == fitted.has("without_option")) {
        reading.findings.error(
            "missing-member", fitted.pointer(),
            {"which option decides is not clear", "exactly one of \"option\" and \"without_option\"", "",
             "write {\"option\": \"ID\"} for a part that comes with the option"});
        return Fitted::Unknown;
    }
    const Index option =
        reading.options.resolve(fitted[with ? "option" : "without_option"], reading.findings);
    if (option == none) return Fitted::Unknown;
    part.option = option;
    part.without_option = !with;
    const Fitted has = reading.harness.options[option].fitted;
    if (has == Fitted::Unknown || with) return has;
    return has == Fitted::Yes ? Fitted::No : Fitted::Yes;
}

std::string read_code(const Member& member, Reading& reading) {
    const std::string text = member.text();
    std::string code = colour_code(text);
    if (!text.empty() && code.empty()) {
        reading.findings.error("unknown-colour", member.pointer(),
                               {"\"" + text + "\" is no colour code",
                                "one of " + join(colour_codes(), " ") + " (IEC 60757)",
                                likely_colour_code(text),
                                "write the code, or leave the colour out and put it into a note",
                                {},
                                replace_by_name(certain_colour_code(text))});
    }
    return code;
}

}  // namespace

void read_parts(const Member& file, Reading& reading) {
    if (file["socket"].is_object()) enter_part(file["socket"], PartKind::Socket, reading);
    for (const List& list : lists) {
        for (const Member& member : file[list.name].entries()) enter_part(member, list.kind, reading);
    }
    for (Index index = 0; index < reading.harness.parts.size(); ++index) {
        const Member& member = reading.part_members[index];
        Part& part = reading.harness.parts[index];
        part.access = read_access(member["access"], reading);
        part.marks = read_marks(member["marks"]);
        part.fitted = read_fitted(member["fitted"], reading, part);
        if (belongs_to_one_network(part.kind)) part.network = read_network(member, reading);
        if (member.has("weight")) part.weight = member.number("weight", 1);
    }
}

Index read_network(const Member& member, Reading& reading) {
    const Index network = reading.networks.resolve(member["network"], reading.findings);
    if (network == none) reading.wiring_sound = false;
    return network;
}

Colour read_colour(const Member& strand, const char* base, const char* stripe, Reading& reading) {
    return {read_code(strand[base], reading), read_code(strand[stripe], reading)};
}

}  // namespace halfsplit::harness
