#include "support/star_bus.hpp"

#include <nlohmann/json.hpp>

namespace halfsplit::test {

namespace {

using nlohmann::json;

constexpr std::size_t star_places = 7;

class StarMaker {
  public:
    explicit StarMaker(std::string words) : words_(std::move(words)) {}

    std::string make(std::size_t arms, std::size_t modules_on_each) {
        surroundings();
        run(0, "HUB", "H", "L", "DS", "6", "14");
        run(0, "HUB", "H", "L", "T1", "1", "2");
        run(6, "HUB", "H", "L", "T2", "1", "2");
        for (std::size_t arm = 0; arm < arms; ++arm) add_arm(arm % star_places, modules_on_each);
        return file_.dump(1) + '\n';
    }

  private:
    std::string named(const char* what, std::size_t number) const {
        return std::string(what) + " " + words_ + " " + std::to_string(number);
    }

    void surroundings() {
        const json pins{{"h", "1"}, {"l", "2"}};
        file_ = {{"format", "halfsplit-harness"},
                 {"version", 1},
                 {"title", "star"},
                 {"note", "Invented by a test."},
                 {"networks", json::array({{{"id", "main"}, {"bit_rate", 250000}}})},
                 {"travel", {{"default_minutes", 2}}},
                 {"modules", json::array()},
                 {"runs", json::array()}};
        for (std::size_t i = 0; i < star_places; ++i) {
            file_["places"].push_back({{"id", "p" + std::to_string(i)}, {"name", named("place", i)}});
            file_["covers"].push_back({{"id", "c" + std::to_string(i)},
                                       {"name", named("cover", i)},
                                       {"off_minutes", 3},
                                       {"on_minutes", 2}});
        }
        file_["socket"] = {{"id", "DS"},
                           {"access", {{"place", "p0"}}},
                           {"ports", json::array({{{"network", "main"}, {"h", "6"}, {"l", "14"}}})}};
        file_["splices"] = json::array({{{"id", "HUB"}, {"network", "main"}, {"access", access(1)}}});
        file_["terminators"] =
            json::array({{{"id", "T1"}, {"network", "main"}, {"pins", pins}, {"access", access(0)}},
                         {{"id", "T2"}, {"network", "main"}, {"pins", pins}, {"access", access(6)}}});
    }

    static json access(std::size_t place) {
        return {{"place", "p" + std::to_string(place)}, {"covers", {"c" + std::to_string(place)}}};
    }

    void add_arm(std::size_t place, std::size_t modules) {
        std::string from = "HUB", high = "H", low = "L";
        for (std::size_t i = 0; i < modules; ++i) {
            const std::string id = "M" + std::to_string(++modules_);
            json bus{{"network", "main"}, {"attach", "spur"}, {"pins", {{"h", "1"}, {"l", "2"}}}};
            if (i + 1 < modules)
                bus = {{"network", "main"},
                       {"attach", "loop"},
                       {"in", {{"h", "1"}, {"l", "2"}}},
                       {"out", {{"h", "3"}, {"l", "4"}}}};
            file_["modules"].push_back({{"id", id},
                                        {"name", named("module", modules_)},
                                        {"access", access(place)},
                                        {"buses", json::array({bus})}});
            run(place, from, high, low, id, "1", "2");
            from = id, high = "3", low = "4";
        }
    }

    void run(std::size_t place, const std::string& from, const std::string& high, const std::string& low,
             const std::string& to, const std::string& to_high, const std::string& to_low) {
        file_["runs"].push_back(
            {{"id", "W" + std::to_string(file_["runs"].size() + 1)},
             {"network", "main"},
             {"length_m", 1.2},
             {"h", {{"from", from + ':' + high}, {"to", to + ':' + to_high}, {"base", "YE"}}},
             {"l", {{"from", from + ':' + low}, {"to", to + ':' + to_low}, {"base", "GN"}}},
             {"access", access(place)}});
    }

    std::string words_;
    json file_;
    std::size_t modules_ = 0;
};

}  // namespace

std::string star_bus_json(std::size_t arms, std::size_t modules_on_each, const std::string& words) {
    return StarMaker(words).make(arms, modules_on_each);
}

}  // namespace halfsplit::test
