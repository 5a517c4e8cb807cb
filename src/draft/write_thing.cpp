// A thing of a harness file as words of a hop.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/writing.hpp"

#include <algorithm>
#include <array>

namespace halfsplit::draft {

namespace {

// Words that stand for something else where a thing could stand.
bool taken_word(const std::string& id, bool single) {
    static const std::vector<std::string> words{
        "title",     "vehicle", "remark",    "use",    "option",     "place",  "cover",  "caution",
        "start",     "travel",  "assume",    "usual",  "bus",        "line",   "other",  "name",
        "note",      "from",    "at",        "with",   "without",    "weight", "absent", "maybe",
        "untwisted", "module",  "connector", "splice", "terminator", "plug",   "socket"};
    if (std::find(words.begin(), words.end(), lower(id)) != words.end()) return true;
    if (read_length(id) || read_gauge(id) || read_minutes(id) || !read_mark(id).empty()) return true;
    return single && read_colour(id).has_value();
}

std::optional<FaceSize> numbered_size(const Json& part) {
    if (!part.contains("face")) return std::nullopt;
    const Json& face = part["face"];
    const FaceSize size{face.value("rows", std::size_t{0}), face.value("columns", std::size_t{0})};
    const Json cavities = face.value("cavities", Json::array());
    if (cavities.size() != size.rows * size.columns) return std::nullopt;
    for (std::size_t i = 0; i < cavities.size(); ++i) {
        if (cavities[i] != std::to_string(i + 1)) return std::nullopt;
    }
    return size;
}

}  // namespace

std::string pair_word(const Pair& pair, bool single) {
    return single ? pair[0] : pair[0] + "/" + pair[1];
}

std::string BusWriter::thing_words(const End& end, bool as_start) {
    const Met met = find(end.part);
    if (!known_here(end.part) && met.kind != Kind::Splice && met.kind != Kind::Connector) {
        return new_thing(met, end, as_start);
    }
    if (!known_.contains(end.part)) return new_thing(met, end, as_start);
    here_.insert(end.part);
    std::string words = end.part;
    if (end.half == (as_start ? 'a' : 'b')) words += fmt::format(".{}", end.half);
    if (met.kind != Kind::Splice) words += " " + pair_word(end.pair, single_);
    if (network_.value("clip", "") == point_of(end, single_)) words += " clip";
    pass(end, met, as_start, false);
    return words;
}

// At its first mention on this bus; what belongs to the part as a whole stands at its first mention at all.
std::string BusWriter::new_thing(const Met& met, const End& end, bool as_start) {
    const bool first = !known_.contains(end.part);
    here_.insert(end.part);
    if (first) known_.insert(end.part);
    ThingWords words;
    words.id = end.part;
    const std::vector<Pair> pairs = met.kind == Kind::Connector ? std::vector<Pair>{end.pair} : pairs_of(met);
    for (const Pair& pair : pairs) words.pairs.push_back({pair, {}});
    if (met.kind == Kind::Connector && end.half == (as_start ? 'a' : 'b')) words.half = end.half;
    std::string text = words.id;
    if (words.half != 0) text += fmt::format(".{}", words.half);
    for (const Pair& pair : pairs) text += " " + pair_word(pair, single_);
    text += bus_words(met);
    if (first) text += part_words(met);
    if (network_.value("clip", "") == point_of(end, single_)) text += " clip";
    if (first) {
        ThingWords guessed = words;
        guessed.face = numbered_size(*met.part);
        if (taken_word(end.part, single_) || guess_kind(guessed).kind != met.kind)
            text = fmt::format("{} {}", kind_word(met.kind), text);
        text += names_after_comma(met);
    }
    pass(end, met, as_start, true);
    return text;
}

std::string BusWriter::bus_words(const Met& met) const {
    const Json& part = *met.part;
    std::string text;
    if (met.kind == Kind::Module) {
        for (const Json& bus : part["buses"]) {
            if (bus.value("network", "") != network_.value("id", "")) continue;
            const std::string terminator = bus.value("terminator", "none");
            if (terminator == "built-in") text += " term";
            if (terminator == "switched-on") text += " term-on";
            if (terminator == "switched-off") text += " term-off";
            if (bus.contains("terminator_ohm")) text += " " + short_number(bus["terminator_ohm"]) + "ohm";
            if (bus.contains("load_ohm")) text += " load " + short_number(bus["load_ohm"]);
        }
    }
    return text;
}

// What belongs to the part as a whole, at its first mention.
std::string BusWriter::part_words(const Met& met) {
    const Json& part = *met.part;
    std::string text;
    if (met.kind == Kind::Terminator && part.contains("ohm")) text += " " + short_number(part["ohm"]) + "ohm";
    if (met.kind == Kind::Plug) text += " for " + part.value("stands_in_for", "");
    for (const char* circuit : {"ground", "supply"}) {
        if (met.kind == Kind::Socket && part.contains(circuit))
            text += fmt::format(" {} {}", circuit, part[circuit].get<std::string>());
    }
    if (const auto face = numbered_size(part)) text += fmt::format(" {}x{}", face->rows, face->columns);
    text += quality_words(part);
    Carried& carried = chain_.carried();
    const Stand stand = stand_of(part, 0);
    if (const std::string spot = stand_word(stand, carried.stand); !spot.empty()) text += " " + spot;
    carried.stand = stand;
    if (part.contains("access")) {
        if (const std::string minutes = minutes_word(minutes_of(part["access"])); !minutes.empty())
            text += " " + minutes;
    }
    const Json halves = part.value("halves", Json::object());
    for (const char half : {'a', 'b'}) {
        const std::string name(1, half);
        if (!halves.contains(name) || !halves[name].contains("access")) continue;
        text += fmt::format(" {}{}", half, stand_word(stand_of(part, half), {}));
        if (const std::string minutes = minutes_word(minutes_of(halves[name]["access"])); !minutes.empty())
            text += " " + minutes;
    }
    return text;
}

std::string BusWriter::names_after_comma(const Met& met) {
    const Json& part = *met.part;
    const std::string id = part.value("id", "");
    if (part.contains("note")) later_ += fmt::format("note {}, {}\n", id, one_line(part["note"]));
    std::string name = part.contains("name") ? one_line(part["name"]) : "";
    const Json halves = part.value("halves", Json::object());
    std::array<std::string, 2> half_name;
    for (std::size_t half = 0; half < 2; ++half) {
        const char* key = half == 0 ? "a" : "b";
        if (halves.contains(key)) half_name[half] = one_line(halves[key].value("name", ""));
    }
    const bool halved = !half_name[0].empty() || !half_name[1].empty();
    const auto commas = std::count(name.begin(), name.end(), ',');
    if (met.kind == Kind::Connector && !name.empty() && (halved ? commas > 0 : commas == 2)) {
        later_ += fmt::format("name {}, {}\n", id, name);
        name.clear();
    }
    if (halved) return fmt::format(", {}, {}, {}", name, half_name[0], half_name[1]);
    return name.empty() ? "" : ", " + name;
}

}  // namespace halfsplit::draft
