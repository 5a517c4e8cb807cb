// Mistakes in a sheet: what, where with a caret, what was expected, the nearest name; several at once.
#include "halfsplit/base/file_error.hpp"
#include "halfsplit/draft/unfinished.hpp"
#include "halfsplit/draft/wire_sheet.hpp"

#include "support/catch.hpp"
#include "support/fake_files.hpp"

#include <algorithm>

using namespace halfsplit;

namespace {

draft::Drafted drafted(const std::string& text) {
    test::FakeFiles files;
    return draft::draft_sheet(text, "van.wires", files);
}

std::vector<std::string> ids(const draft::Drafted& result) {
    std::vector<std::string> all;
    for (const Finding& finding : result.findings) all.push_back(finding.id);
    return all;
}

// A drive that is pulled out after its first file was read.
class VanishingLibrary : public test::FakeFiles {
  public:
    std::string read(const std::string& path, std::uint64_t limit) override {
        if (gone_) throw FileError(FileError::Kind::Missing, "there is no such file");
        gone_ = true;
        return FakeFiles::read(path, limit);
    }

  private:
    bool gone_ = false;
};

const std::string head =
    "place driver, driver's footwell\nplace rear, rear corner\ncover kick 7/5', kick panel\n"
    "bus main 500k\nGW 1/2 term @driver/kick, gateway\n";

}  // namespace

TEST_CASE("one mistake of a sheet, as it is shown") {
    const draft::Drafted result = drafted(head + ".5 bu/yel X1 4/5 @drivr\n");
    REQUIRE(result.json.empty());
    REQUIRE(to_text(result.findings) ==
            "van.wires:6:7: error: \"yel\" is no colour [unknown-colour]\n"
            "  .5 bu/yel X1 4/5 @drivr\n"
            "        ^\n"
            "  Expected: base, then stripe, of BK BN RD OG YE GN BU VT GY WH PK GD TQ SR GNYE (IEC 60757); "
            "H/L, such as "
            "buye/bubk; ? where not stated.\n"
            "  Nearest known name: \"ye\".\n"
            "  Next: write the codes, or ? for a colour not stated.\n"
            "van.wires:6:19: error: no place is named \"drivr\" [sheet-name]\n"
            "  .5 bu/yel X1 4/5 @drivr\n"
            "                    ^\n"
            "  Expected: a place of the library or of this sheet.\n"
            "  Nearest known name: \"driver\".\n"
            "  Next: correct the name, or add a line above: place drivr, what it is in words.");
}

TEST_CASE("each mistake of a sheet has its finding, and none hides another") {
    struct Case {
        std::string lines;
        std::vector<std::string> ids;
    };
    const std::vector<Case> cases{
        {".5 ye/gn flexng X1 4/5\n", {"sheet-word"}},
        {".5 X1\n", {"sheet-missing"}},
        {".5 S1 4/5 9/10 1/2\n", {"sheet-word"}},
        {".5 X1 4/5\n.5 M1 1/2\n.5 M2 1/2\n", {"sheet-order"}},
        {"1200 X1 4/5\n", {"sheet-value"}},
        {".5 .01mm2 X1 4/5\n", {"sheet-value"}},
        {".5 X1 4/5 9999'\n", {"sheet-value"}},
        {".5 X1 4/5 wibble\n", {"sheet-word"}},
        {".5 X1 4/5\n.5 module X1 1/2\n", {"sheet-again"}},
        {".5 X1 4/5\n.5 M1 1/2 3/4\n.5 S1\n.5 from M1 5/6\n", {"sheet-word"}},
        {".5 X1 4/5 2x0\n", {"sheet-value"}},
        {".5 plug BP1 1/2 3/4\n", {"sheet-missing"}},
        {"plug BP1 on X9.a 1/2 3/4 for lift\n", {"sheet-name"}},
        {".5 X1 4/5\nother X1 9 buye\n", {"sheet-missing"}},
        {".5 X1 4/5\nother X1 9 bluye lamp\n", {"unknown-colour"}},
        {"note X9, rusty\n", {"sheet-name"}},
        {"option lift perhaps\n", {"sheet-word"}},
        {"travel driver rear\n", {"sheet-word"}},
        {"use nowhere\n", {"sheet-library"}},
        {".5 M\303\244 1/2\n", {"bad-name"}},
        {"option\n", {"sheet-missing"}},
        {"place\n", {"sheet-missing"}},
        {"cover\n", {"sheet-missing"}},
        {"caution place\n", {"sheet-missing"}},
        {"start\n", {"sheet-missing"}},
        {"usual\n", {"sheet-missing"}},
        {"use\n", {"sheet-missing"}},
        {"place driver, again\n", {"duplicate-id"}},
        {"place d\303\244ch\n", {"bad-name"}},
        {"cover box 2000/5', box\n", {"sheet-value"}},
        {"cover box 7/5, box\n", {"sheet-word"}},
        {"caution place attic, hot in summer\n", {"sheet-word"}},
        {"start attic\n", {"sheet-name"}},
        {"travel 9999\n", {"sheet-value"}},
        {"assume contact_slip\n", {"sheet-word"}},
        {"usual thing 4/5\n", {"sheet-word"}},
        {"usual splice 3m\n", {"sheet-word"}},
        {"usual wire 4000m\n", {"sheet-value"}},
        {".5 M1 1/2 with lift\noption lift yes\n", {"sheet-order"}},
        {".5 M1 1/2 with l\303\244ft\n", {"bad-name"}},
        {"place seat_1\nplace seat_2\n.5 X1 4/5 @seat\n", {"sheet-name"}},
        {".5 ye/gn flexng X1 4/5\n1200 X2 4/5\nnote X9, rusty\n",
         {"sheet-word", "sheet-value", "sheet-name"}},
    };
    for (const Case& one : cases) {
        const draft::Drafted result = drafted(head + one.lines);
        INFO(one.lines << to_text(result.findings));
        CHECK(ids(result) == one.ids);
        CHECK(result.json.empty());
        for (const Finding& finding : result.findings) {
            CHECK(finding.location.line > 5);
            CHECK_FALSE(finding.source_line.empty());
            CHECK_FALSE(finding.next_step.empty());
        }
    }
}

TEST_CASE("a sheet without a bus says what a line of one looks like") {
    const draft::Drafted result = drafted("place driver, driver's footwell\n");
    REQUIRE(ids(result) == std::vector<std::string>{"sheet-missing"});
    CHECK(result.findings[0].message == "no bus in this sheet");
    CHECK(result.json.empty());
}

TEST_CASE("a library that goes away while the sheet is drafted is told at the line that uses it") {
    VanishingLibrary files;
    files.put("library/van.json",
              R"({"format": "halfsplit-library", "version": 1, "places": [{"id": "roof"}]})");
    const draft::Drafted result =
        draft::draft_sheet("title van\nuse van\nbus main\nGW 1/2 term\n1 T1 1/2\n", "van.wires", files);
    INFO(to_text(result.findings));
    REQUIRE(ids(result) == std::vector<std::string>{"file-missing"});
    CHECK(result.findings[0].location.file == "van.wires");
    CHECK(result.findings[0].location.line == 2);
    CHECK(result.json.empty());
}

TEST_CASE("a word with a slip is told as that word, not as what it made of the rest") {
    const draft::Drafted result = drafted(head + ".5 ye/gn flexng X1 4/5\n");
    REQUIRE(result.findings.size() == 1);
    CHECK(result.findings[0].location.column == 10);
    CHECK(result.findings[0].nearest == "flexing");
}

TEST_CASE("what the harness of a sheet lacks is placed in the sheet, in its terms") {
    const draft::Drafted result =
        drafted(head + ".5 ye/gn X1 4/5\n.8 S1\n.3 M1 1/2\n.4 M2 1/2 3/4 with lift no\n.5 T1 1/2\n");
    INFO(to_text(result.findings));
    REQUIRE(ids(result) == std::vector<std::string>{"pass-through-missing"});
    CHECK(result.findings[0].location.line == 9);
    CHECK(result.findings[0].next_step.find("plug BP1 on X7.a") != std::string::npos);
    for (const Finding& finding : result.findings) {
        for (const std::string& text : {finding.message, finding.expected, finding.next_step})
            CHECK(text.find('{') == std::string::npos);
    }
}

TEST_CASE("any garbage is findings, never an exception") {
    const std::string full =
        head +
        ".5 ye/gn .35mm2 wet X1.b 4/5 2x4 b@rear 1/2', dash to body, dash, body\n.7 S1 weight 2\n"
        "plug BP1 on X1.a 1/2 3/4 for lift\nother X1 9 bu lamp\nfrom S1 .4 T1 1/2 120ohm\n";
    for (std::size_t length = 0; length <= full.size(); ++length)
        CHECK_NOTHROW(drafted(full.substr(0, length)));
    const std::string noise = "@/.,'\":;?x0a-# \n";
    std::uint64_t state = 7;
    for (int round = 0; round < 300; ++round) {
        std::string text = full;
        for (int change = 0; change < 6; ++change) {
            state = state * 6364136223846793005ULL + 1442695040888963407ULL;
            text[(state >> 33U) % text.size()] = noise[(state >> 20U) % noise.size()];
        }
        CHECK_NOTHROW(drafted(text));
    }
}

TEST_CASE("what a sheet leaves out is listed") {
    const draft::Drafted result =
        drafted("bus main\nGW 1/2 term\nX1 4/5\n2 S1\nT1 1/2\nfrom S1 AUX 1/2 with extra\n");
    INFO(to_text(result.findings));
    REQUIRE_FALSE(result.json.empty());
    const auto listed = [&](const std::string& text) {
        return std::any_of(result.assumed.begin(), result.assumed.end(),
                           [&](const std::string& line) { return line.find(text) != std::string::npos; });
    };
    CHECK(listed("bit rate not said, taken as 500 kbit/s: main"));
    CHECK(listed("lines not named, called H and L: main"));
    CHECK(listed("taken for connectors by their letter: X1"));
    CHECK(listed("length not said, taken as 1 m: W1, W3, W4"));
    CHECK(listed("colours not said, left out: W1, W2, W3, W4"));
    CHECK(listed("section not said, taken as 0.5 mm2: W1, W2, W3, W4"));
    CHECK(listed("place not said"));
    CHECK(listed("not said whether fitted, kept open: extra"));
    CHECK(listed("taken for modules where the pair ends: AUX"));
}

TEST_CASE("large and small letters, decimal commas and either word for a place are all the same") {
    const std::string first = head + "0.5 YE/GN X1 4/5 @rear, floor\n.8 T1 1/2\n";
    const std::string second = head + "0,5 ye/gn X1 4/5 at REAR, floor\n.8 terminator T1 1/2\n";
    REQUIRE_FALSE(drafted(first).json.empty());
    CHECK(drafted(first).json == drafted(second).json);
}

TEST_CASE("a sheet still being written that is not UTF-8 is refused and does not end the program") {
    test::FakeFiles files;
    const draft::Unfinished state = draft::read_unfinished(head + "use \xFForestry\n", "van.wires", files);
    REQUIRE(state.errors.size() == 1);
    CHECK(state.errors.front().id == "sheet-encoding");
    CHECK_FALSE(state.harness);
}
