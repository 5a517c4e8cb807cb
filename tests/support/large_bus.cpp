#include "support/large_bus.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <utility>

namespace halfsplit::test {

namespace {

using nlohmann::json;

constexpr std::size_t places = 12;
constexpr std::size_t points_at_the_ends = 4;

// Where the next run starts.
struct Pair {
    std::string high, low;
};

std::string numbered(const char* word, std::size_t number) {
    return word + std::to_string(number + 1);
}

Pair at(const std::string& part, const char* high, const char* low) {
    return {part + ':' + high, part + ':' + low};
}

json pins(const char* high, const char* low) {
    return {{"h", high}, {"l", low}};
}

class Maker {
  public:
    Maker(std::size_t points, Sections kind)
        : kind_(kind), sections_((points - points_at_the_ends) / (kind == Sections::Modules ? 6 : 2)) {}

    std::string make() {
        surroundings();
        add("splices", "DSS", {{"network", "main"}}, 0);
        file_["socket"] = {{"id", "DS"},
                           {"access", access(0)},
                           {"ports", json::array({{{"network", "main"}, {"h", "6"}, {"l", "14"}}})},
                           {"ground", "4"},
                           {"supply", "16"}};
        const Pair first = at("DSS", "H", "L");
        run(first, at("DS", "6", "14"), 0);
        end("T1", first, 0);
        Pair open = kind_ == Sections::Connectors ? past_stub(first, 0) : first;
        for (std::size_t section = 0; section < sections_; ++section) {
            open = through_connector(open, section);
            if (kind_ == Sections::Modules) open = past_modules(open, section);
        }
        if (kind_ == Sections::Connectors) open = past_stub(open, sections_);
        end("T2", open, sections_ - 1);
        return file_.dump(1) + '\n';
    }

  private:
    void surroundings() {
        file_ = {{"format", "halfsplit-harness"},
                 {"version", 1},
                 {"title", "large bus"},
                 {"note", "Invented for a benchmark."},
                 {"networks", json::array({{{"id", "main"}, {"bit_rate", 250000}}})}};
        for (const char* list :
             {"modules", "connectors", "splices", "terminators", "runs", "places", "covers"})
            file_[list] = json::array();
        file_["travel"] = {{"default_minutes", 3}, {"pairs", json::array()}};
        for (std::size_t place = 0; place < places; ++place) {
            file_["places"].push_back({{"id", numbered("place", place)}});
            file_["covers"].push_back({{"id", numbered("cover", place)},
                                       {"off_minutes", 4 + place % 5},
                                       {"on_minutes", 3 + place % 4}});
            if (place == 0) continue;
            file_["travel"]["pairs"].push_back(
                {{"between", {numbered("place", place - 1), numbered("place", place)}}, {"minutes", 1}});
        }
    }

    // Sections are spread evenly over the places, in order.
    json access(std::size_t section) const {
        const std::size_t place = std::min(section * places / sections_, places - 1);
        return {{"place", numbered("place", place)},
                {"covers", {numbered("cover", place)}},
                {"probe_minutes", 1},
                {"look_minutes", 4}};
    }

    void add(const char* list, const std::string& id, json part, std::size_t section) {
        part["id"] = id;
        part["access"] = access(section);
        file_[list].push_back(std::move(part));
    }

    void run(const Pair& from, const Pair& to, std::size_t section) {
        const std::size_t number = runs_++;
        add("runs", numbered("W", number),
            {{"network", "main"},
             {"length_m", 0.1 * static_cast<double>(1 + number % 7)},
             {"h", {{"from", from.high}, {"to", to.high}, {"base", "YE"}}},
             {"l", {{"from", from.low}, {"to", to.low}, {"base", "GN"}}}},
            section);
    }

    void end(const std::string& terminator, const Pair& from, std::size_t section) {
        add("terminators", terminator, {{"network", "main"}, {"pins", pins("1", "2")}}, section);
        run(from, at(terminator, "1", "2"), section);
    }

    void module(const std::string& id, json bus, std::size_t section) {
        bus["network"] = "main";
        add("modules", id, {{"buses", json::array({std::move(bus)})}}, section);
    }

    Pair through_connector(const Pair& from, std::size_t section) {
        const std::string connector = numbered("X", section);
        add("connectors", connector, json::object(), section);
        run(from, at(connector + ".a", "1", "2"), section);
        return at(connector + ".b", "1", "2");
    }

    Pair past_modules(const Pair& from, std::size_t section) {
        const std::string loop = numbered("M", section);
        module(loop, {{"attach", "loop"}, {"in", pins("1", "2")}, {"out", pins("3", "4")}}, section);
        run(from, at(loop, "1", "2"), section);
        return past_stub(at(loop, "3", "4"), section);
    }

    Pair past_stub(const Pair& from, std::size_t section) {
        const std::string splice = numbered("S", section), stub = numbered("N", section);
        add("splices", splice, {{"network", "main"}}, section);
        run(from, at(splice, "H", "L"), section);
        module(stub, {{"attach", "spur"}, {"pins", pins("1", "2")}}, section);
        run(at(splice, "H", "L"), at(stub, "1", "2"), section);
        return at(splice, "H", "L");
    }

    Sections kind_;
    std::size_t sections_, runs_ = 0;
    json file_;
};

}  // namespace

std::string large_bus_json(std::size_t points, Sections sections) {
    return Maker(points, sections).make();
}

}  // namespace halfsplit::test
