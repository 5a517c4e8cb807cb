#include "support/random_harness.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace halfsplit::test {

namespace {

using nlohmann::json;
using Layout = RandomHarnessShape::Layout;

// Where the pair has got to: the two terminals from which the next run starts.
struct Open {
    std::string h, l;
};

class Maker {
  public:
    Maker(std::uint64_t seed, RandomHarnessShape shape) : random_(seed), shape_(shape) {
        if (shape_.layout == Layout::Any) shape_.layout = static_cast<Layout>(random_.between(1, 5));
        const bool small = shape_.layout == Layout::Chain || shape_.layout == Layout::Backbone;
        const std::size_t least = small ? 4 : 9;
        budget_ = random_.between(std::max(least, shape_.fewest_points), std::max(least, shape_.most_points));
    }

    std::string make() {
        surroundings();
        switch (shape_.layout) {
            case Layout::Tee:
                branches(3);
                break;
            case Layout::Star:
                branches(random_.between(4, 6));
                break;
            case Layout::Ring:
                ring();
                break;
            default:
                line();
        }
        return file_.dump(1) + '\n';
    }

  private:
    // --- places, covers, options
    // -------------------------------------------------------------------------------

    void surroundings() {
        file_ = {{"format", "halfsplit-harness"},
                 {"version", 1},
                 {"title", "random harness"},
                 {"note", "Invented by a test."},
                 {"networks", json::array({{{"id", "main"}, {"bit_rate", 250000}}})}};
        for (const char* list : {"modules", "connectors", "splices", "terminators", "bridge_plugs", "runs"}) {
            file_[list] = json::array();
        }
        places_ = random_.between(1, 5);
        file_["places"] = json::array();
        file_["travel"] = {{"default_minutes", random_.between(1, 4)}, {"pairs", json::array()}};
        for (std::size_t place = 0; place < places_; ++place) {
            file_["places"].push_back({{"id", name("place", place)}});
            for (std::size_t other = 0; other < place; ++other) {
                if (random_.chance(60)) continue;
                file_["travel"]["pairs"].push_back({{"between", {name("place", other), name("place", place)}},
                                                    {"minutes", random_.between(1, 9)}});
            }
        }
        covers();
        if (shape_.options) {
            for (std::size_t option = 0; option < 2; ++option) {
                constexpr std::array<const char*, 3> fitted{"yes", "no", "unknown"};
                file_["options"].push_back(
                    {{"id", name("option", option)}, {"fitted", fitted[random_.below(3)]}});
            }
        }
    }

    // Each cover may lie under earlier ones only, so that there is no cycle.
    void covers() {
        covers_ = random_.below(9);
        file_["covers"] = json::array();
        for (std::size_t cover = 0; cover < covers_; ++cover) {
            json entry{{"id", name("cover", cover)},
                       {"off_minutes", random_.between(1, 40)},
                       {"on_minutes", random_.between(1, 30)}};
            for (std::size_t other = 0; other < cover; ++other) {
                if (random_.chance(15)) entry["under"].push_back(name("cover", other));
            }
            file_["covers"].push_back(std::move(entry));
        }
    }

    json access() {
        json result{{"place", name("place", random_.below(places_))},
                    {"probe_minutes", tenths(5, 20)},
                    {"look_minutes", random_.between(1, 10)}};
        for (std::size_t cover = 0; cover < covers_; ++cover) {
            if (random_.chance(20)) result["covers"].push_back(name("cover", cover));
        }
        return result;
    }

    // --- the pair
    // --------------------------------------------------------------------------------------------

    static std::string name(const char* kind, std::size_t number) {
        return kind + std::to_string(number + 1);
    }
    double tenths(std::size_t least, std::size_t most) {
        return static_cast<double>(random_.between(least, most)) / 10.0;
    }
    static Open at(const std::string& part, const json& pins) {
        return {part + ':' + pins.at("h").get<std::string>(), part + ':' + pins.at("l").get<std::string>()};
    }
    static json pins(std::size_t first) {
        return {{"h", std::to_string(first)}, {"l", std::to_string(first + 1)}};
    }

    json& add(const char* list, const std::string& id, json part) {
        part["id"] = id;
        if (!part.contains("access") && !part.contains("at")) part["access"] = access();
        if (shape_.marks && random_.chance(25)) {
            constexpr std::array<const char*, 5> marks{"flexing", "wet", "worked-on", "add-on", "unverified"};
            part["marks"].push_back(marks[random_.below(marks.size())]);
        }
        file_[list].push_back(std::move(part));
        return file_[list].back();
    }

    // `fitted` is empty for a run that is always there.
    void run(const Open& from, const Open& to, std::size_t most_tenths = 60, const json& fitted = {}) {
        constexpr std::array<const char*, 4> bases{"YE", "GN", "WH", "BU"};
        const std::string base = bases[random_.below(bases.size())];
        json part{{"network", "main"},
                  {"length_m", tenths(2, most_tenths)},
                  {"h", {{"from", from.h}, {"to", to.h}, {"base", base}, {"stripe", "BK"}}},
                  {"l", {{"from", from.l}, {"to", to.l}, {"base", base}, {"stripe", "BN"}}}};
        if (random_.chance(30)) part["awg"] = random_.between(16, 24);
        if (!fitted.is_null()) part["fitted"] = fitted;
        add("runs", name("W", runs_++), std::move(part));
    }

    Open splice() {
        const std::string id = name("S", splices_++);
        add("splices", id, {{"network", "main"}});
        ++points_;
        return {id + ":H", id + ":L"};
    }

    Open through_connector(const Open& from, std::size_t most_tenths = 60) {
        const std::string id = name("X", connectors_++);
        const json cavities = pins(random_.between(1, 9));
        add("connectors", id, json::object());
        run(from, at(id + ".a", cavities), most_tenths);
        points_ += 2;
        return at(id + ".b", cavities);
    }

    // A loop module, perhaps one that comes with an option and has a plug that takes its place.
    Open through_module(const Open& from) {
        const std::string id = name("M", modules_++);
        const json in = pins(random_.between(1, 4));
        const json out = pins(random_.between(6, 9));
        json& module = add(
            "modules", id,
            {{"buses", json::array({{{"network", "main"}, {"attach", "loop"}, {"in", in}, {"out", out}}})}});
        if (shape_.options && random_.chance(40)) {
            const std::string option = name("option", random_.below(2));
            module["fitted"] = {{"option", option}};
            add("bridge_plugs", name("BP", plugs_++),
                {{"network", "main"},
                 {"stands_in_for", random_.chance(50) ? option : id},
                 {"at", id},
                 {"in", in},
                 {"out", out}});
        }
        run(from, at(id, in));
        points_ += 2;
        return at(id, out);
    }

    // An option's own loom behind a connector: out, through its module, and back; or a plug in the connector.
    Open through_option_loom(const Open& from) {
        const std::string id = name("X", connectors_++);
        const std::string option = name("option", random_.below(2));
        const json fitted{{"option", option}};
        const json out = pins(1);
        const json back = pins(3);
        add("connectors", id, {{"fitted", fitted}});
        add("bridge_plugs", name("BP", plugs_++),
            {{"network", "main"}, {"stands_in_for", option}, {"at", id + ".a"}, {"in", out}, {"out", back}});
        const std::string module = name("M", modules_++);
        add("modules", module,
            {{"fitted", fitted},
             {"buses",
              json::array({{{"network", "main"}, {"attach", "loop"}, {"in", pins(1)}, {"out", pins(3)}}})}});
        run(from, at(id + ".a", out));
        run(at(id + ".b", out), at(module, pins(1)), 30, fitted);
        run(at(module, pins(3)), at(id + ".b", back), 30, fitted);
        points_ += 6;
        return at(id + ".a", back);
    }

    void end_at_spur(const Open& from, const char* terminator, std::size_t most_tenths = 60) {
        const std::string id = name("M", modules_++);
        const json where = pins(random_.between(1, 9));
        add("modules", id,
            {{"buses", json::array({{{"network", "main"},
                                     {"attach", "spur"},
                                     {"pins", where},
                                     {"terminator", terminator}}})}});
        run(from, at(id, where), most_tenths);
        ++points_;
    }

    void end_at_terminator(const Open& from) {
        if (random_.chance(50)) {
            end_at_spur(from, random_.chance(70) ? "built-in" : "switched-on");
            return;
        }
        const std::string id = name("T", terminators_++);
        add("terminators", id, {{"network", "main"}, {"pins", pins(1)}});
        run(from, at(id, pins(1)));
        ++points_;
    }

    void socket(const Open& from) {
        file_["socket"] = {{"id", "DS"},
                           {"access", access()},
                           {"ports", json::array({{{"network", "main"}, {"h", "6"}, {"l", "14"}}})},
                           {"ground", "4"},
                           {"supply", "16"}};
        run(from, {"DS:6", "DS:14"}, 10);
        ++points_;
    }

    // A stub to a spur module, sometimes through a connector; short enough for any table of stubs at 250
    // kbit/s.
    Open past_stub(const Open& from) {
        const Open here = splice();
        run(from, here);
        const Open stub = random_.chance(30) ? through_connector(here, 10) : here;
        end_at_spur(stub, "none", 20);
        return here;
    }

    // One more element, if it leaves `reserve` points of the budget. Says whether it did.
    bool grow(Open& open, std::size_t reserve, bool stubs) {
        const std::size_t room = budget_ > points_ + reserve ? budget_ - points_ - reserve : 0;
        if (room < 2) return false;
        const std::size_t what = random_.below(100);
        if (room >= 6 && shape_.options && what < 12) {
            open = through_option_loom(open);
        } else if (room >= 4 && stubs && what < 60) {
            open = past_stub(open);
        } else if (what < 75) {
            open = through_module(open);
        } else {
            open = through_connector(open);
        }
        return true;
    }

    // --- layouts
    // ---------------------------------------------------------------------------------------------

    void line() {
        const Open first = splice();
        socket(first);
        end_at_terminator(first);
        Open open = first;
        while (grow(open, 1, shape_.layout == Layout::Backbone)) {
        }
        end_at_terminator(open);
    }

    void branches(std::size_t count) {
        const Open middle = splice();
        socket(middle);
        for (std::size_t branch = 2; branch < count; ++branch) end_at_spur(middle, "none", 40);
        Open near = middle;
        Open far = middle;
        while (grow(near, 2, false) && grow(far, 2, false)) {
        }
        end_at_terminator(near);
        end_at_terminator(far);
    }

    // From a loop module round to itself; with two terminators in the ring, or without ends.
    void ring() {
        const bool ends = random_.chance(50);
        const std::string id = name("M", modules_++);
        const char* terminator = ends ? "built-in" : "none";
        const auto bus = [&](std::size_t in, std::size_t out) {
            return json::array({{{"network", "main"},
                                 {"attach", "loop"},
                                 {"in", pins(in)},
                                 {"out", pins(out)},
                                 {"terminator", terminator}}});
        };
        add("modules", id, {{"buses", bus(1, 3)}});
        const std::string second = name("M", modules_++);
        add("modules", second, {{"buses", bus(5, 7)}});
        points_ += 4;
        const Open tap = splice();
        socket(tap);
        run(at(id, pins(3)), tap);
        run(tap, at(second, pins(5)));
        Open open = at(second, pins(7));
        while (grow(open, 0, true)) {
        }
        run(open, at(id, pins(1)));
    }

    Random random_;
    RandomHarnessShape shape_;
    json file_;
    std::size_t budget_ = 0, points_ = 0, places_ = 1, covers_ = 0;
    std::size_t runs_ = 0, splices_ = 0, connectors_ = 0, modules_ = 0, plugs_ = 0, terminators_ = 0;
};

}  // namespace

std::uint64_t Random::next() {
    state_ += 0x9E3779B97F4A7C15ULL;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31U);
}

std::string random_harness_json(std::uint64_t seed, RandomHarnessShape shape) {
    return Maker(seed, shape).make();
}

}  // namespace halfsplit::test
