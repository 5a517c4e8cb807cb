#include "draft/layout.hpp"

#include "halfsplit/base/text.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"

#include <sstream>

using namespace halfsplit;
using Json = nlohmann::ordered_json;

TEST_CASE("A harness laid out says the same, on lines that a screen shows") {
    for (const char* name : {"data/demo/minibus.json", "data/demo/forestry.json"}) {
        CAPTURE(name);
        const Json harness = Json::parse(test::read_file(name));
        const std::string text = draft::laid_out(harness);
        CHECK(Json::parse(text) == harness);
        std::istringstream lines(text);
        std::size_t count = 0;
        for (std::string line; std::getline(lines, line); ++count) {
            CAPTURE(line);
            // The notes are longer by themselves.
            if (line.find("\"note\"") == std::string::npos) CHECK(display_width(line) <= 110);
        }
        CHECK(count < 600);
    }
}

TEST_CASE("Short lists stay on their line and long ones are filled") {
    CHECK(draft::laid_out(Json::parse(R"({"a": [], "b": {}, "c": ["x", 1], "d": [{"e": 0.5}]})")) ==
          "{\n  \"a\": [],\n  \"b\": {},\n  \"c\": [\"x\", 1],\n  \"d\": [ { \"e\": 0.5 } ]\n}\n");
    Json many;
    for (int i = 0; i < 60; ++i) many["cavities"].push_back(std::to_string(i));
    CHECK(draft::laid_out(many).find(",\n    \"") != std::string::npos);
    CHECK(Json::parse(draft::laid_out(many)) == many);
    CHECK(draft::laid_out(Json::object()) == "{}\n");
}
