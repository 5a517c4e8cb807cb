// The published schema of a line, against what is written and what is refused.
#include "halfsplit/base/schema.hpp"
#include "halfsplit/job/log.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/random_event.hpp"

using namespace halfsplit;
using namespace halfsplit::job;
using nlohmann::json;

namespace {

json line_of(const Event& event) {
    return json::parse(to_line({1, 1'772'351'100, event}, ""));
}

bool valid(const json& line) {
    return validate(line, "job-record").empty();
}

}  // namespace

TEST_CASE("the line of each kind of record fits the published schema") {
    test::RandomEvents events(6);
    for (std::size_t index = 0; index < std::variant_size_v<Body>; ++index) {
        for (int i = 0; i < 30; ++i) {
            const json line = line_of(events.of_kind(index));
            INFO(line);
            for (const SchemaViolation& violation : validate(line, "job-record")) {
                FAIL_CHECK(violation.pointer << ": " << violation.message);
            }
        }
    }
}

TEST_CASE("the schema refuses what the reader refuses") {
    const json good = line_of({Reading{"A", "B", Quantity::Ohm, Outcome::Value, 0.4, false}, {}});
    REQUIRE(valid(good));
    const auto changed = [&good](const char* pointer, const json& value) {
        json line = good;
        line[json::json_pointer(pointer)] = value;
        return line;
    };
    CHECK_FALSE(valid(changed("/sequence", 0)));
    CHECK_FALSE(valid(changed("/event/kind", "danced")));
    CHECK_FALSE(valid(changed("/event/outcome", "maybe")));
    CHECK_FALSE(valid(changed("/event/value", "much")));
    CHECK_FALSE(valid(changed("/event/minutes", -1)));
    CHECK_FALSE(valid(changed("/event/more", 1)));
    CHECK_FALSE(valid(changed("/more", 1)));
    json without_moved = good;
    without_moved["event"].erase("moved");
    CHECK_FALSE(valid(without_moved));
}

TEST_CASE("the schema lets no amend put an opening, an advice, an undo or an amend in place") {
    json line = line_of({Amend{2, std::make_shared<const Event>(Event{Remark{"x"}, {}})}, {}});
    REQUIRE(valid(line));
    for (const Body& body : {Body{Opened{}}, Body{Recommended{}}, Body{Undo{2}},
                             Body{Amend{2, std::make_shared<const Event>(Event{Remark{"x"}, {}})}}}) {
        line["event"]["event"] = line_of({body, {}})["event"];
        CHECK_FALSE(valid(line));
    }
}
