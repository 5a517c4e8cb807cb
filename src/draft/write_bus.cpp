// One network of a harness file as lines of a sheet: its runs in the order of the file.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/writing.hpp"

#include <algorithm>
#include <array>

namespace halfsplit::draft {

namespace {

struct List {
    const char* name;
    Kind kind;
};

constexpr std::array<List, 5> part_lists{{{"modules", Kind::Module},
                                          {"connectors", Kind::Connector},
                                          {"splices", Kind::Splice},
                                          {"terminators", Kind::Terminator},
                                          {"bridge_plugs", Kind::Plug}}};

Pair pair_of(const Json& pins, bool single) {
    return {pins.value("h", ""), single ? "" : pins.value("l", "")};
}

// "X3.a:4" as an end with one cavity.
struct Terminal {
    std::string part, cavity;
    char half = 0;
};

Terminal parse(const std::string& name) {
    const std::size_t colon = name.find(':');
    const auto [part, half] = split_half(name.substr(0, colon));
    return {part, colon == std::string::npos ? "" : name.substr(colon + 1), half};
}

harness::Colour colour_of(const Json& strand) {
    return {strand.value("base", ""), strand.value("stripe", "")};
}

Json gauge_of(const Json& run) {
    for (const char* member : {"section_mm2", "awg"}) {
        if (run.contains(member)) return Json{{member, run[member]}};
    }
    return Json();
}

std::string gauge_word(const Json& gauge) {
    if (gauge.contains("awg")) return short_number(gauge["awg"].get<double>()) + "awg";
    return short_number(gauge.contains("section_mm2") ? gauge["section_mm2"].get<double>() : 0.5) + "mm2";
}

}  // namespace

BusWriter::BusWriter(const Json& file, std::size_t network, std::set<std::string>& known)
    : file_(file),
      network_(file["networks"][network]),
      known_(known),
      single_(network_.value("kind", "") == "single-line") {
    if (file_.contains("socket")) parts_[file_["socket"].value("id", "")] = {&file_["socket"], Kind::Socket};
    for (const List& list : part_lists) {
        if (!file_.contains(list.name)) continue;
        for (const Json& part : file_[list.name]) parts_[part.value("id", "")] = {&part, list.kind};
    }
    bus_line();
    for (const Json& run : file_.value("runs", Json::array())) {
        if (run.value("network", "") == network_.value("id", "")) write_run(run);
    }
    write_rest();
    write_plugs();
}

std::string BusWriter::text() && {
    return text_ + later_;
}

void BusWriter::bus_line() {
    for (const Json& run : file_.value("runs", Json::array())) {
        if (run.value("network", "") != network_.value("id", "")) continue;
        const std::string id = run.value("id", "");
        if (id.size() > 1 && id.back() == '1' && (id[id.size() - 2] < '0' || id[id.size() - 2] > '9'))
            prefix_ = id.substr(0, id.size() - 1);
        break;
    }
    text_ += fmt::format("{} {}", single_ ? "line" : "bus", network_.value("id", ""));
    if (network_.contains("bit_rate")) {
        const double rate = network_["bit_rate"];
        text_ += rate >= 1000 ? " " + short_number(rate / 1000) + "k" : " " + short_number(rate);
    }
    if (network_.contains("kind") && !single_) text_ += " " + network_["kind"].get<std::string>();
    if (network_.contains("terminator_ohm")) text_ += " " + short_number(network_["terminator_ohm"]) + "ohm";
    if (network_.contains("terminators")) text_ += " terminators " + network_["terminators"].dump();
    if (network_.contains("longest_stub_m")) text_ += " stub " + short_number(network_["longest_stub_m"]);
    const Json lines = network_.value("lines", Json::object());
    if (lines.contains("h")) text_ += " " + lines["h"].get<std::string>();
    if (lines.contains("h") && lines.contains("l")) text_ += " " + lines["l"].get<std::string>();
    if (prefix_ != "W") text_ += " wires " + prefix_;
    if (network_.contains("name")) text_ += ", " + one_line(network_["name"]);
    text_ += "\n";
}

BusWriter::Met BusWriter::find(const std::string& id) const {
    const auto found = parts_.find(id);
    return found == parts_.end() ? Met{} : found->second;
}

bool BusWriter::known_here(const std::string& id) const {
    return here_.contains(id);
}

std::optional<End> BusWriter::end_of(const Json& run, const char* which) const {
    if (!run.contains("h") || (!single_ && !run.contains("l"))) return std::nullopt;
    const Terminal high = parse(run["h"].value(which, ""));
    if (single_) return End{high.part, high.half, {high.cavity, ""}};
    const Terminal low = parse(run["l"].value(which, ""));
    if (low.part != high.part || low.half != high.half) return std::nullopt;
    return End{high.part, high.half, {high.cavity, low.cavity}};
}

// How this network goes in and out of a part: none at a splice.
std::vector<Pair> BusWriter::pairs_of(const Met& met) const {
    const auto of_bus = [&](const char* list) -> const Json* {
        for (const Json& entry : (*met.part)[list]) {
            if (entry.value("network", "") == network_.value("id", "")) return &entry;
        }
        return nullptr;
    };
    if (met.kind == Kind::Socket) {
        const Json* port = of_bus("ports");
        return port == nullptr ? std::vector<Pair>{} : std::vector<Pair>{pair_of(*port, single_)};
    }
    const Json* pins = met.kind == Kind::Module ? of_bus("buses") : met.part;
    if (pins == nullptr) return {};
    if (pins->contains("pins")) return {pair_of((*pins)["pins"], single_)};
    if (pins->contains("in")) return {pair_of((*pins)["in"], single_), pair_of((*pins)["out"], single_)};
    return {};
}

void BusWriter::write_run(const Json& run) {
    const auto from = end_of(run, "from");
    const auto to = end_of(run, "to");
    if (!from || !to) return;
    const Met target = find(to->part);
    if (find(from->part).part == nullptr || target.part == nullptr) return;
    // A loop that is met by its second pair first would come out the wrong way round: it is named before.
    const std::vector<Pair> pairs = pairs_of(target);
    if (!known_here(to->part) && pairs.size() == 2 && to->pair == pairs[1])
        start_at(to->part, {to->part, 0, pairs[0]});
    if (!known_here(from->part)) start_at(from->part, *from);
    ++runs_;
    const std::string id = run.value("id", "");
    std::string line;
    if (id != fmt::format("{}{}", prefix_, runs_)) line += id + ": ";
    if (!(chain_.here() == from)) line += go_to(*from);
    line += wire_words(run);
    line += thing_words(*to, false);
    text_ += line + "\n";
    if (run.contains("name") && run["name"] != from->part + " to " + to->part)
        later_ += fmt::format("name {}, {}\n", id, one_line(run["name"]));
    if (run.contains("note")) later_ += fmt::format("note {}, {}\n", id, one_line(run["note"]));
}

// "from X2.a 7/8 ": the chain goes there.
std::string BusWriter::go_to(const End& from) {
    const Met met = find(from.part);
    chain_.go_back(from, met.kind == Kind::Splice, stand_of(*met.part, from.half));
    std::string words = "from " + from.part;
    if (from.half != 0) words += fmt::format(".{}", from.half);
    if (met.kind != Kind::Splice) words += " " + pair_word(from.pair, single_);
    return words + " ";
}

std::string BusWriter::wire_words(const Json& run) {
    Carried& carried = chain_.carried();
    std::string words = short_number(run.value("length_m", 0.0));
    const harness::Colour high = colour_of(run["h"]);
    const harness::Colour low = single_ ? harness::Colour{} : colour_of(run["l"]);
    if (!(high == carried.colour[0]) || (!single_ && !(low == carried.colour[1]))) {
        words += " " + colour_word(high);
        if (!single_) words += "/" + colour_word(low);
        carried.colour = {high, low};
    }
    const Json gauge = gauge_of(run);
    if (gauge != carried.gauge) {
        words += " " + gauge_word(gauge);
        carried.gauge = gauge.is_null() ? Json{{"section_mm2", 0.5}} : gauge;
    }
    if (run.contains("twisted") && run["twisted"] == false) words += " untwisted";
    words += quality_words(run);
    const std::string minutes = minutes_word(minutes_of(run["access"]));
    if (!minutes.empty()) words += " " + minutes;
    const Stand stand = stand_of(run, 0);
    const std::string spot = stand_word(stand, carried.stand);
    if (!spot.empty()) words += " " + spot;
    carried.stand = stand;
    return words + " ";
}

// A line of its own for where the pair begins.
void BusWriter::start_at(const std::string& id, const End& end) {
    const bool begun = !here_.empty();
    const Met met = find(id);
    Carried& carried = chain_.carried();
    std::string line;
    if (const std::string spot = stand_word(stand_of(*met.part, 0), carried.stand);
        !spot.empty() && !known_.contains(id)) {
        carried.stand = stand_of(*met.part, 0);
        line = spot + " ";
    }
    line += thing_words(end, true);
    text_ += (begun ? "from " : "") + line + "\n";
}

// What the reader does when it has met the thing.
void BusWriter::pass(const End& end, const Met& met, bool as_start, bool fresh) {
    const bool splice = met.kind == Kind::Splice;
    std::optional<End> out;
    if (splice) out = end;
    if (met.kind == Kind::Connector) {
        out = end;
        if (!as_start) out->half = end.half == 'a' ? 'b' : 'a';
    }
    const std::vector<Pair> pairs =
        splice || met.kind == Kind::Connector ? std::vector<Pair>{} : pairs_of(met);
    if (!pairs.empty() && (fresh || as_start)) {
        if (pairs.size() == 2) out = End{end.part, 0, pairs[1]};
        if (!out && as_start) out = end;
    }
    chain_.carried().stand = stand_of(*met.part, out ? out->half : end.half);
    if (out) {
        chain_.pass(*out, splice);
    } else if (!as_start) {
        chain_.finish();
    }
}

// What no run of this network meets.
void BusWriter::write_rest() {
    const auto add = [&](const Json& part, Kind kind) {
        const std::string id = part.value("id", "");
        if (known_here(id) || kind == Kind::Connector || (kind == Kind::Plug && part.contains("at"))) return;
        const std::vector<Pair> pairs = pairs_of({&part, kind});
        const bool here = kind == Kind::Splice || kind == Kind::Terminator || kind == Kind::Plug
                              ? part.value("network", "") == network_.value("id", "")
                              : !pairs.empty();
        if (here) start_at(id, {id, 0, pairs.empty() ? Pair{"H", "L"} : pairs[0]});
    };
    if (file_.contains("socket")) add(file_["socket"], Kind::Socket);
    for (const List& list : part_lists) {
        for (const Json& part : file_.value(list.name, Json::array())) add(part, list.kind);
    }
}

void BusWriter::write_plugs() {
    for (const Json& plug : file_.value("bridge_plugs", Json::array())) {
        if (!plug.contains("at") || plug.value("network", "") != network_.value("id", "")) continue;
        std::string line =
            fmt::format("plug {} on {} {} {} for {}", plug.value("id", ""), plug.value("at", ""),
                        pair_word(pair_of(plug["in"], single_), single_),
                        pair_word(pair_of(plug["out"], single_), single_), plug.value("stands_in_for", ""));
        line += quality_words(plug);
        if (plug.contains("access")) {
            line += " " + stand_word(stand_of(plug, 0), {});
            if (const std::string minutes = minutes_word(minutes_of(plug["access"])); !minutes.empty())
                line += " " + minutes;
        }
        if (plug.contains("name")) line += ", " + one_line(plug["name"]);
        text_ += line + "\n";
        if (plug.contains("note"))
            later_ += fmt::format("note {}, {}\n", plug.value("id", ""), one_line(plug["note"]));
    }
}

}  // namespace halfsplit::draft
