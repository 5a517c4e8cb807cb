// Networks, options, places, travel and covers.
#include "harness/reading.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace halfsplit::harness {

namespace {

constexpr std::size_t most_places = 200;  // as in the schema; the table of minutes is places x places

std::vector<std::string> texts(const Member& list) {
    std::vector<std::string> all;
    for (const Member& entry : list.entries()) {
        if (entry.is_text()) all.push_back(entry.text());
    }
    return all;
}

Fitted fitted_from(const std::string& word) {
    if (word == "yes") return Fitted::Yes;
    return word == "no" ? Fitted::No : Fitted::Unknown;
}

void read_libraries(const Member& list, Reading& reading) {
    for (const Member& entry : list.entries())
        reading.harness.libraries.push_back({entry.text("file"), entry.text("title"), entry.text("source")});
}

void read_networks(const Member& list, Reading& reading) {
    for (const Member& entry : list.entries()) {
        Network network;
        network.id = entry.text("id");
        network.name = entry.text("name", network.id);
        network.kind = entry.text("kind", "iso11898-2");
        const bool slow =
            network.kind == "j1939-11" || network.kind == "j1939-15";  // 250 kbit/s: from memory
        network.bit_rate = entry.number("bit_rate", slow ? 250'000 : network.bit_rate);
        network.terminator_ohm = entry.number("terminator_ohm", network.terminator_ohm);
        network.longest_stub_m = entry.number("longest_stub_m", 0);
        network.single_line = network.kind == "single-line";
        network.line_name = {entry["lines"].text("h", network.single_line ? network.name : "H"),
                             entry["lines"].text("l", network.single_line ? "" : "L")};
        const double terminators = entry.number("terminators", -1);
        if (terminators >= 0) network.terminators = static_cast<std::size_t>(std::min(terminators, 1000.0));
        reading.networks.enter(entry, reading.harness.networks.size(), reading.findings);
        reading.harness.networks.push_back(std::move(network));
    }
}

void read_options(const Member& list, Reading& reading) {
    for (const Member& entry : list.entries()) {
        Option option;
        option.id = entry.text("id");
        option.name = entry.text("name", option.id);
        option.fitted = fitted_from(entry.text("fitted"));
        reading.options.enter(entry, reading.harness.options.size(), reading.findings);
        reading.harness.options.push_back(std::move(option));
    }
}

void read_places(const Member& list, Reading& reading) {
    for (const Member& entry : list.entries()) {
        Place place;
        place.id = entry.text("id");
        place.name = entry.text("name", place.id);
        place.cautions = texts(entry["cautions"]);
        reading.places.enter(entry, reading.harness.places.size(), reading.findings);
        reading.harness.places.push_back(std::move(place));
    }
}

void read_travel(const Member& travel, Reading& reading) {
    Travel& table = reading.harness.travel;
    const std::size_t places = std::min(reading.harness.places.size(), most_places);
    table.default_minutes = travel.number("default_minutes", table.default_minutes);
    table.minutes.assign(places * places, table.default_minutes);
    for (std::size_t place = 0; place < places; ++place) table.minutes[place * places + place] = 0;
    std::map<std::pair<Index, Index>, std::string> seen;
    for (const Member& pair : travel["pairs"].entries()) {
        const std::vector<Member> between = pair["between"].entries();
        if (between.size() != 2) continue;
        const Index from = reading.places.resolve(between[0], reading.findings);
        const Index to = reading.places.resolve(between[1], reading.findings);
        if (from >= places || to >= places) continue;
        const auto [entry, fresh] = seen.emplace(std::minmax(from, to), pair.pointer());
        if (from == to || !fresh) {
            reading.findings.error("travel-twice", pair.pointer(),
                                   {from == to ? "the way from a place to itself" : "these two places again",
                                    "each pair of different places once", "", "delete one of the two",
                                    fresh ? "" : entry->second});
            continue;
        }
        const double minutes = pair.number("minutes", table.default_minutes);
        table.minutes[from * places + to] = table.minutes[to * places + from] = minutes;
    }
}

// The covers that a list names, in order of the file.
std::vector<Index> read_cover_list(const Member& list, Reading& reading) {
    std::vector<Index> covers;
    for (const Member& reference : list.entries()) {
        const Index cover = reading.covers.resolve(reference, reading.findings);
        if (cover == none) continue;
        if (std::find(covers.begin(), covers.end(), cover) == covers.end()) {
            covers.push_back(cover);
            continue;
        }
        reading.findings.warning(
            "listed-twice", reference.pointer(),
            {"\"" + reference.text() + "\" stands twice in this list", "each cover once", "",
             "delete one, or write the cover that was meant", "", Mend{Mend::Kind::Delete, ""}});
    }
    std::sort(covers.begin(), covers.end());
    return covers;
}

void read_covers(const Member& list, Reading& reading) {
    const std::vector<Member> entries = list.entries();
    for (const Member& entry : entries) {
        Cover cover;
        cover.id = entry.text("id");
        cover.name = entry.text("name", cover.id);
        cover.off_minutes = entry.number("off_minutes", 0);
        cover.on_minutes = entry.number("on_minutes", 0);
        cover.cautions = texts(entry["cautions"]);
        reading.covers.enter(entry, reading.harness.covers.size(), reading.findings);
        reading.harness.covers.push_back(std::move(cover));
    }
    for (std::size_t cover = 0; cover < entries.size(); ++cover) {
        reading.harness.covers[cover].under = read_cover_list(entries[cover]["under"], reading);
    }
}

}  // namespace

void read_surroundings(const Member& file, Reading& reading) {
    reading.harness.title = file.text("title");
    reading.harness.vehicle = file.text("vehicle");
    reading.harness.note = file.text("note");
    read_libraries(file["libraries"], reading);
    read_networks(file["networks"], reading);
    read_options(file["options"], reading);
    read_places(file["places"], reading);
    read_travel(file["travel"], reading);
    read_covers(file["covers"], reading);
    const Index start = reading.places.resolve(file["start"], reading.findings);
    if (start != none) reading.harness.start = start;
}

Access read_access(const Member& member, Reading& reading) {
    Access access;
    access.place = reading.places.resolve(member["place"], reading.findings);
    access.covers = read_cover_list(member["covers"], reading);
    access.probe_minutes = member.number("probe_minutes", access.probe_minutes);
    access.look_minutes = member.number("look_minutes", access.look_minutes);
    return access;
}

}  // namespace halfsplit::harness
