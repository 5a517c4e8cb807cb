// "1.1 buye/bubk X1 4/5 @driver/kick, dash to body": a wire and what it leads to. The first line of a bus,
// and one that begins with "from", says where the pair begins.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/things.hpp"

namespace halfsplit::draft {

namespace {

class Hop {
  public:
    Hop(const SheetLine& line, Sheet& sheet) : line_(line), sheet_(sheet), cursor_(line, 0) {}

    void read() {
        read_wire_id();
        if (lower(cursor_.word().text) == "from" && cursor_.more()) {
            cursor_.step();
            if (!read_from()) return;
            if (!cursor_.any()) return;
        } else if (!sheet_.bus().begun) {
            begin(cursor_);
            return;
        }
        if (!sheet_.bus().chain.here()) return say_nowhere();
        read_hop();
    }

  private:
    void read_wire_id() {
        const Word& first = cursor_.word();
        if (first.text.size() < 2 || first.text.back() != ':' || !cursor_.more()) return;
        wire_id_ = {first.text.substr(0, first.text.size() - 1), first.at};
        usable_id(*wire_id_, sheet_);
        cursor_.step();
    }

    // A known thing: from one of its ends. A new one: the pair begins there.
    bool read_from() {
        const auto [id, half] = split_half(cursor_.word().text);
        const Thing* known = sheet_.document.find(id);
        const bool met = known != nullptr && (known->kind == Kind::Splice ||
                                              sheet_.bus().pairs.find(known->id) != sheet_.bus().pairs.end());
        if (!met) {
            begin(cursor_);
            return false;
        }
        const Thing thing = *known;
        const Word name = cursor_.word();
        cursor_.step();
        return thing.kind == Kind::Splice ? from_splice(thing) : from_pair(thing, half, name);
    }

    bool from_splice(const Thing& thing) {
        go_back({thing.id, 0, {"H", "L"}}, thing);
        return true;
    }

    bool from_pair(const Thing& thing, char half, const Word& name) {
        const auto& pairs = sheet_.bus().pairs[thing.id];
        End end{thing.id,
                thing.kind != Kind::Connector ? '\0'
                : half != 0                   ? half
                                              : 'b',
                {pairs.back()[1], pairs.back()[2]}};
        const auto named = cursor_.any() ? cavities_here() : std::nullopt;
        if (named) {
            end.pair = *named;
            cursor_.step();
        } else if (thing.kind == Kind::Connector && pairs.size() > 1) {
            sheet_.error("sheet-missing", name.at,
                         {fmt::format("the pair passes {} more than once", thing.id),
                          fmt::format("from {} {}/{}", name.text, pairs[0][1], pairs[0][2]), "",
                          "write the cavities"});
            return false;
        }
        go_back(end, thing);
        return true;
    }

    std::optional<Pair> cavities_here() const {
        const std::string& text = cursor_.word().text;
        if (!sheet_.bus().single) {
            const auto pair = read_pair(text);
            return pair && !read_colour((*pair)[0]) ? pair : std::nullopt;
        }
        // On a single line a cavity looks like a length: only what follows tells them apart.
        const bool whole = text.find_first_not_of("0123456789") == std::string::npos;
        return whole ? std::optional(Pair{text, ""}) : std::nullopt;
    }

    void go_back(const End& end, const Thing& thing) {
        sheet_.bus().chain.go_back(end, thing.kind == Kind::Splice,
                                   stand_of(sheet_.document.at(thing.pointer), end.half));
    }

    void begin(Cursor cursor) {
        const WireWords wire = read_wire_words(cursor, sheet_);
        Bus& bus = sheet_.bus();
        if (!cursor.any()) return say_no_thing();
        if (wire.length || !wire.qualities.marks.empty()) {
            sheet_.error("sheet-order", wire.at,
                         {"a wire, and nothing yet that it comes from",
                          "first a line for the thing where the bus begins, such as GW 1/2 term", "",
                          "write that line above"});
            bus.begun = true;
        }
        const Meeting meeting = meet(read_thing_words(cursor, sheet_), line_, true, sheet_);
        bus.begun = true;
        if (meeting.sound && meeting.out) bus.chain.pass(*meeting.out, meeting.splice);
    }

    void say_no_thing() {
        sheet_.error(
            "sheet-missing", line_.words.front().at,
            {"what this wire leads to is not said", "a thing behind the words about the wire, such as X1 4/5",
             "", "add it, or delete the line"});
    }

    void say_nowhere() {
        sheet_.error("sheet-order", line_.words.front().at,
                     {"there is nothing that this wire could come from: the pair has ended",
                      "from, and a thing with its cavities", "",
                      "write where it comes from: from X1.b 4/5; or, where the last thing is a connector, "
                      "say so before its "
                      "name: connector C5 4/5"});
    }

    void read_hop() {
        Bus& bus = sheet_.bus();
        const WireWords wire = read_wire_words(cursor_, sheet_);
        if (!cursor_.any()) return say_no_thing();
        const Carried carried = bus.chain.carried();
        const End from = *bus.chain.here();
        const ThingWords thing = read_thing_words(cursor_, sheet_);
        const Meeting meeting = meet(thing, line_, false, sheet_);
        if (!meeting.sound) return;
        thing_at_ = thing.at;
        add_run(wire, carried, from, meeting.in);
        if (meeting.out) {
            bus.chain.pass(*meeting.out, meeting.splice);
        } else {
            bus.chain.finish();
        }
    }

    void add_run(const WireWords& wire, const Carried& carried, const End& from, const End& to) {
        Bus& bus = sheet_.bus();
        ++bus.runs;
        const std::string id = wire_id_ ? wire_id_->text : fmt::format("{}{}", bus.run_prefix, bus.runs);
        Json run{{"id", id}, {"name", fmt::format("{} to {}", from.part, to.part)}, {"network", bus.id}};
        put_qualities(run, wire.qualities);
        const std::string pointer = sheet_.document.append("runs", Json::object(), wire.at);
        for (std::size_t line = 0; line < (bus.single ? 1U : 2U); ++line) {
            const char* name = line == 0 ? "h" : "l";
            Json strand{{"from", terminal_of(from, line)}, {"to", terminal_of(to, line)}};
            const harness::Colour& colour = carried.colour[line];
            if (!colour.base.empty()) strand["base"] = colour.base;
            if (!colour.stripe.empty()) strand["stripe"] = colour.stripe;
            run[name] = std::move(strand);
            sheet_.document.place(pointer + "/" + name + "/to", thing_at_);
        }
        if (carried.colour[0].base.empty()) sheet_.missing("colours", id);
        add_measures(run, wire, carried, id);
        sheet_.document.place(pointer + "/id", wire_id_ ? wire_id_->at : wire.at);
        if (wire.length) sheet_.document.place(pointer + "/length_m", wire.length_at);
        sheet_.wires[id] = pointer;
        sheet_.document.at(pointer) = std::move(run);
    }

    void add_measures(Json& run, const WireWords& wire, const Carried& carried, const std::string& id) {
        if (!wire.length && !sheet_.usual_length) sheet_.missing("length", id);
        run["length_m"] = number_to_json(wire.length ? *wire.length : sheet_.usual_length.value_or(1));
        if (carried.gauge.is_null()) {
            sheet_.missing("section", id);
        } else {
            run.update(carried.gauge);
        }
        if (wire.untwisted) run["twisted"] = false;
        if (wire.stand.place.empty()) sheet_.missing("place", id);
        Minutes minutes = wire.qualities.minutes;
        if (!minutes.probe) minutes.probe = sheet_.usual_wire.probe;
        if (!minutes.look) minutes.look = sheet_.usual_wire.look;
        run["access"] = access_to_json(wire.stand, minutes);
    }

    const SheetLine& line_;
    Sheet& sheet_;
    Cursor cursor_;
    std::optional<Word> wire_id_;
    At thing_at_;
};

}  // namespace

void read_hop_line(const SheetLine& line, Sheet& sheet) {
    if (sheet.buses.empty()) {
        sheet.error("sheet-order", line.words.front().at,
                    {fmt::format("\"{}\" stands before the first bus", line.words.front().text),
                     "a line such as: bus body 500k BODY-H BODY-L",
                     nearest_name(line.words.front().text,
                                  {"bus", "line", "title", "vehicle", "remark", "use", "option", "place",
                                   "cover", "caution", "start", "travel", "assume", "usual"}),
                     "add the line that names the bus, or correct the word"});
        return;
    }
    Hop(line, sheet).read();
}

}  // namespace halfsplit::draft
