// Places, ways and covers of a matrix file.
#include "halfsplit/base/text.hpp"

#include "matrix/reading.hpp"

#include <algorithm>
#include <bit>

namespace halfsplit::matrix {

namespace {

using access::CoverSet;

void read_travel(const Member& file, Reading& reading) {
    const Member table = file["travel"];
    const std::vector<Member> rows = table.entries();
    reading.places =
        std::max<std::size_t>(1, file.has("places") ? file["places"].entries().size() : rows.size());
    reading.travel.assign(reading.places * reading.places, 0.0);
    if (!table.exists()) return;
    check_length(table, reading.places, "row", "one for each place", reading);
    for (std::size_t from = 0; from < std::min(rows.size(), reading.places); ++from) {
        check_length(rows[from], reading.places, "figure", "the minutes to each place", reading);
        const std::vector<Member> row = rows[from].entries();
        for (std::size_t to = 0; to < std::min(row.size(), reading.places); ++to)
            reading.travel[from * reading.places + to] = row[to].number(0);
    }
}

// The shortest way from a cover by what lies over it back to itself; empty where there is none.
std::vector<std::size_t> ring_through(std::size_t start, const std::vector<access::Cover>& covers) {
    std::vector<std::size_t> came_from(covers.size(), covers.size()), open{start};
    for (std::size_t next = 0; next < open.size(); ++next) {
        for (CoverSet rest = covers[open[next]].under; rest != 0; rest &= rest - 1) {
            const auto over = static_cast<std::size_t>(std::countr_zero(rest));
            if (came_from[over] != covers.size()) continue;
            came_from[over] = open[next];
            open.push_back(over);
        }
    }
    std::vector<std::size_t> ring;
    if (came_from[start] == covers.size()) return ring;
    for (std::size_t at = came_from[start]; at != start; at = came_from[at]) ring.push_back(at);
    ring.push_back(start);
    std::reverse(ring.begin(), ring.end());
    return ring;
}

void check_rings(const std::vector<Member>& members, Reading& reading) {
    std::vector<bool> told(reading.covers.size(), false);
    for (std::size_t cover = 0; cover < reading.covers.size(); ++cover) {
        if (told[cover]) continue;
        const std::vector<std::size_t> ring = ring_through(cover, reading.covers);
        if (ring.empty()) continue;
        std::vector<std::string> names;
        for (const std::size_t one : ring) {
            told[one] = true;
            names.push_back(std::to_string(one));
        }
        names.push_back(names.front());
        reading.findings.error("cover-cycle", members[cover].pointer() + "/under",
                               {"covers lie under one another: " + join(names, ", under "),
                                "an order in which they come off; covers are counted from 0", "",
                                "delete the number under which it does not lie"});
    }
}

void read_all_covers(const Member& list, Reading& reading) {
    std::vector<Member> members = list.entries();
    if (members.size() > access::most_covers)
        members.erase(members.begin() + access::most_covers, members.end());
    reading.covers.resize(members.size());
    for (std::size_t c = 0; c < members.size(); ++c)
        reading.covers[c] = {members[c].number("off", 0), members[c].number("on", 0),
                             read_covers(members[c]["under"], reading)};
    check_rings(members, reading);
}

}  // namespace

void read_workshop(const Member& file, Reading& reading) {
    read_travel(file, reading);
    read_all_covers(file["covers"], reading);
    reading.matrix.problem.start.place = read_number(file["start"], reading.places, "place", reading);
}

std::size_t read_number(const Member& reference, std::size_t count, const char* what, Reading& reading) {
    if (!reference.index()) return 0;
    const std::size_t number = *reference.index();
    if (number < count) return number;
    const std::string name = what;
    const std::string known = count == 0   ? "no " + name + " is given in this file"
                              : count == 1 ? "0, the one " + name + " there is"
                                           : "0 to " + std::to_string(count - 1) + ": each " + name +
                                                 " by its number, counted from 0";
    reading.findings.error("unknown-reference", reference.pointer(),
                           {"there is no " + name + ' ' + std::to_string(number), known, "",
                            "correct the number, or add the " + name});
    return 0;
}

CoverSet read_covers(const Member& list, Reading& reading) {
    CoverSet covers = 0;
    for (const Member& entry : list.entries()) {
        const std::size_t cover = read_number(entry, reading.covers.size(), "cover", reading);
        if (entry.index() == cover && cover < reading.covers.size()) covers |= CoverSet{1} << cover;
    }
    return covers;
}

void check_length(const Member& list, std::size_t wanted, const char* entry, const char* each,
                  Reading& reading) {
    if (!list.is_list()) return;
    const std::size_t size = list.size();
    if (size == wanted) return;
    reading.findings.error("wrong-length", list.pointer(),
                           {counted(size, entry) + " where " + std::to_string(wanted) +
                                (wanted == 1 ? " is" : " are") + " needed",
                            each, "", size < wanted ? "add what is missing" : "delete what is too much"});
}

}  // namespace halfsplit::matrix
