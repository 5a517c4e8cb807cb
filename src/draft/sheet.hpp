// What the readers of a wire sheet's lines share.
#pragma once

#include "halfsplit/base/files.hpp"
#include "halfsplit/base/finding.hpp"
#include "halfsplit/harness/read.hpp"

#include "draft/document.hpp"

#include <map>
#include <set>
#include <string>
#include <vector>

namespace halfsplit::draft {

// What was found, and in the words of a sheet what to do about it.
struct Remark {
    std::string message, expected, nearest, next;
};

// One kind of name that a sheet may use before or without saying it: places, covers, options.
struct Names {
    std::string kind;  // "place"
    bool open = true;  // a name nobody declared comes to be by being used
    std::vector<std::string> ids;
    std::vector<std::string> made;  // those that came to be so
    std::set<std::string> lent;     // those of a library, which the sheet may declare anew
};

struct Bus {
    std::string id;
    bool single = false;  // one wire
    std::string run_prefix = "W";
    std::size_t runs = 0;  // hops so far
    Chain chain;
    bool begun = false;
    std::map<std::string, std::vector<std::array<std::string, 3>>> pairs;  // by part: half, h, l
};

struct Sheet {
    Sheet(std::string name, Files& reads, const harness::IncludeRules& rules)
        : file(std::move(name)), files(reads), include(rules) {}

    std::string file;
    Files& files;
    harness::IncludeRules include;
    Document document;
    std::vector<Finding> findings;
    Names places{"place", true, {}, {}, {}}, covers{"cover", true, {}, {}, {}},
        options{"option", true, {}, {}, {}};
    std::vector<Bus> buses;
    std::map<Kind, Minutes> usual_minutes;
    Minutes usual_wire;
    std::optional<double> usual_length;
    std::map<std::string, std::string> wires;   // pointer of each run by id
    std::map<std::string, Word> option_states;  // "with lift no": by option that no line declares
    std::string last_thing;                     // the thing that a line beginning with a comma is about
    // What was not said, by what it is: ids in the order of the sheet.
    std::map<std::string, std::vector<std::string>> unsaid;

    Bus& bus() { return buses.back(); }
    void error(const char* id, const At& at, Remark remark);
    void missing(const std::string& what, const std::string& id) { unsaid[what].push_back(id); }
    void note_short(const std::string& word, const std::string& meant);
    bool failed() const { return any_error(findings); }
};

// The id that a word means: exactly, or without regard to case and _ - +, or by a beginning of three letters
// and more that leaves one only. An undeclared name is entered where the sheet declares none; otherwise it is
// a finding, and what comes back is empty.
std::string name_in(Names& names, const Word& word, Sheet& sheet);

// A figure in its range; a finding otherwise.
bool within(double value, double least, double most, const Word& word, const char* what, Sheet& sheet);

// Whether a text can be an id of a part, a wire, a place...; a finding otherwise.
bool usable_id(const Word& word, Sheet& sheet);

// Lines before the first bus, and anywhere: what the vehicle is, libraries, places, covers, options.
bool read_surroundings_line(const SheetLine& line, Sheet& sheet);
// "bus ..." and "line ...".
bool read_bus_line(const SheetLine& line, Sheet& sheet);
// "other", "plug ... on", "name", "note".
bool read_extra_line(const SheetLine& line, Sheet& sheet);
// A wire and what it leads to; or where the pair begins.
void read_hop_line(const SheetLine& line, Sheet& sheet);
// Places and covers of a library file.
void read_library(const Word& name, Sheet& sheet);

// What is left to say once all lines are read: usual values, and the list of them.
std::vector<std::string> take_usual_values(Sheet& sheet);

}  // namespace halfsplit::draft
