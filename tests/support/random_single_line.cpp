#include "support/random_single_line.hpp"

#include <nlohmann/json.hpp>

#include "support/random_harness.hpp"

#include <utility>

namespace halfsplit::test {

namespace {

using nlohmann::json;

class SingleLine {
  public:
    explicit SingleLine(std::uint64_t seed) : dice_(seed) {}

    std::string text() {
        document_["networks"].push_back({{"id", "feed"}, {"kind", "single-line"}, {"clip", "FEED:1"}});
        for (const char* place : {"front", "middle", "rear"}) document_["places"].push_back({{"id", place}});
        document_["covers"].push_back({{"id", "lid"}, {"off_minutes", 4}, {"on_minutes", 3}});
        document_["covers"].push_back({{"id", "floor"}, {"off_minutes", 30}, {"on_minutes", 20}});
        add_module("FEED");
        grow("FEED:1", dice_.between(2, 6));
        return document_.dump();
    }

  private:
    std::string fresh(const char* kind) { return kind + std::to_string(++parts_); }

    json access() {
        json result{{"place", std::vector<std::string>{"front", "middle", "rear"}[dice_.below(3)]}};
        if (dice_.chance(60)) result["covers"].push_back(dice_.chance(50) ? "lid" : "floor");
        return result;
    }

    void add_module(const std::string& id) {
        json bus{{"network", "feed"}, {"attach", "spur"}, {"pins", {{"h", "1"}}}};
        if (dice_.chance(40)) bus["load_ohm"] = dice_.between(1, 400);
        document_["modules"].push_back({{"id", id}, {"access", access()}, {"buses", {bus}}});
    }

    void add_run(const std::string& from, const std::string& to) {
        document_["runs"].push_back({{"id", fresh("W")},
                                     {"network", "feed"},
                                     {"length_m", 0.1 * static_cast<double>(dice_.between(2, 60))},
                                     {"access", access()},
                                     {"h", {{"from", from}, {"to", to}}}});
    }

    // From a terminal on through so many parts; a splice branches.
    void grow(const std::string& from, std::size_t parts) {
        if (parts == 0) {
            const std::string lamp = fresh("LAMP");
            add_module(lamp);
            return add_run(from, lamp + ":1");
        }
        if (dice_.chance(70)) {
            const std::string connector = fresh("X");
            document_["connectors"].push_back({{"id", connector}, {"access", access()}});
            add_run(from, connector + ".a:3");
            return grow(connector + ".b:3", parts - 1);
        }
        const std::string splice = fresh("S");
        document_["splices"].push_back({{"id", splice}, {"network", "feed"}, {"access", access()}});
        add_run(from, splice + ":H");
        grow(splice + ":H", (parts - 1) / 2);
        grow(splice + ":H", (parts - 1) / 2);
    }

    Random dice_;
    std::size_t parts_ = 0;
    json document_{{"format", "halfsplit-harness"}, {"version", 1}};
};

}  // namespace

std::string random_single_line_json(std::uint64_t seed) {
    return SingleLine(seed).text();
}

}  // namespace halfsplit::test
