// Wire lists as spreadsheets save them.
#include "halfsplit/draft/from_csv.hpp"

#include "draft/csv_values.hpp"
#include "support/catch.hpp"
#include "support/drafts.hpp"
#include "support/files_of_tests.hpp"

#include <algorithm>

using namespace halfsplit;

namespace {

std::string trailer_list() {
    return test::read_file("tests/data/wires/trailer.csv");
}

draft::Loom list_of(const std::string& text, const std::string& columns = {}) {
    const draft::LoomRead read = draft::read_csv(text, "loom.csv", columns);
    INFO(to_text(read.findings));
    REQUIRE(read.loom);
    return *read.loom;
}

Finding list_refusal(const std::string& text, const std::string& columns = {}) {
    const draft::LoomRead read = draft::read_csv(text, "loom.csv", columns);
    REQUIRE_FALSE(read.loom);
    REQUIRE(read.findings.size() == 1);
    return read.findings.front();
}

std::string ends(const draft::Loom& loom, std::size_t wire) {
    const draft::LoomWire& it = loom.wires.at(wire);
    std::string text;
    for (const draft::LoomEnd& end : it.ends) {
        text += (text.empty() ? "" : " ") + (end.part == draft::nowhere ? "?" : loom.parts[end.part].id) +
                ':' + end.cavity;
    }
    return text;
}

}  // namespace

TEST_CASE("a spreadsheet's list is read: mark, semicolons, quotes, line ends of two, decimal commas") {
    const draft::LoomRead read = draft::read_csv(trailer_list(), "loom.csv", "");
    REQUIRE(read.loom);
    const draft::Loom& loom = *read.loom;
    CHECK(loom.title == "Trailer loom (invented, for tests)");
    REQUIRE(loom.wires.size() == 16);
    CHECK(ends(loom, 0) == "GW:1 X1-M:4");
    CHECK(loom.wires[0].signal == "BUS-H");
    CHECK(loom.wires[0].colour == harness::Colour{"YE", "BK"});
    CHECK(loom.wires[1].colour == harness::Colour{"YE", "BN"});
    CHECK(loom.wires[0].section_mm2 == Approx(0.35));
    CHECK(loom.wires[0].length_m == Approx(1.2505));
    CHECK(loom.wires[0].twisted);
    CHECK(loom.wires[0].group == loom.wires[1].group);
    CHECK(ends(loom, 6) == "X1-F:7 S1, \"frame\":");
    CHECK(loom.wires[7].colour == harness::Colour{"GY", "RD"});
    CHECK(loom.wires[7].section_mm2 == Approx(0.518).margin(0.001));  // 20 AWG: ASTM B258
    CHECK(loom.wires[11].length_m == Approx(0.3));                    // its own unit before the heading's
    CHECK(loom.left_out == std::vector<std::string>{"line 16: no ends, so no wire: Rear section"});
    CHECK(test::ids(read.findings) == std::vector<std::string>{"csv-cell", "csv-cell", "csv-cell"});
    CHECK(read.findings[1].location.line == 14);
    CHECK(read.findings[1].location.column == 44);
    CHECK(read.findings[1].message == "\"far\" is not kept: no such figure");
}

TEST_CASE("every row of a list that is no usable wire has a reason") {
    const draft::Loom loom = list_of(trailer_list());
    const auto why = [&](const std::string& id, std::size_t which = 0) {
        for (const draft::LoomWire& wire : loom.wires) {
            if (wire.id == id && which-- == 0) return wire.unusable;
        }
        return std::string("no such wire");
    };
    CHECK(why("10") == "its row has nothing under \"to\"");
    CHECK(why("14") == "the list names no cavity at AIR");
    CHECK(why("11").empty());
    CHECK(why("11", 1) == "it stands in line 18 already");
    CHECK(why("line-23").empty());
}

TEST_CASE("separators, quotes and line ends of every kind give the same wires") {
    const std::string plain = "from,cavity,to,cavity,signal\nA,1,B,2,S\nB,3,C,4,T\n";
    const auto same = [&](std::string text) {
        const draft::Loom loom = list_of(text);
        REQUIRE(loom.wires.size() == 2);
        CHECK(ends(loom, 0) == "A:1 B:2");
        CHECK(ends(loom, 1) == "B:3 C:4");
        CHECK(loom.wires[1].signal == "T");
    };
    const auto replaced = [&](char what, const std::string& by) {
        std::string text;
        for (const char c : plain) text += c == what ? by : std::string(1, c);
        return text;
    };
    same(plain);
    same(replaced(',', ";"));
    same(replaced(',', "\t"));
    same(replaced(',', " , "));
    same(replaced('\n', "\r\n"));
    same(replaced('\n', "\r"));
    same(replaced('\n', ",,,\n"));
    same(replaced('\n', "\n\n,,,\n"));
    same("sep=;\n" + replaced(',', ";"));
    same(
        "\"from\",\"cavity\",\"to\",\"cavity\",\"signal\"\n\"A\",\"1\",\"B\",\"2\",\"S\"\n\"B\",\"3\",\"C\","
        "\"4\",\"T\"");
}

TEST_CASE("headers are understood by their words, by option, and by number") {
    CHECK(ends(list_of("Part;Pin;Part;Pin\nA;1;B;2\n"), 0) == "A:1 B:2");
    CHECK(ends(list_of("From Pin;From;To Pin;To\n1;A;2;B\n"), 0) == "A:1 B:2");
    CHECK(ends(list_of("Source;Target\nA:1;B:2\n"), 0) == "A:1 B:2");
    CHECK(
        ends(list_of("Von;Stift;Nach;Platz\nA;1;B;2\n", "from=Von,from-cavity=Stift,to=Nach,to-cavity=platz"),
             0) == "A:1 B:2");
    CHECK(ends(list_of("A;1;B;2\nB;1;C;2\n", "from=1,from-cavity=2,to=3,to-cavity=4"), 0) == "A:1 B:2");
    CHECK(list_of("from;to;length cm\nA:1;B:1;70\n").wires[0].length_m == Approx(0.7));
    CHECK(list_of("from;to;length\nA:1;B:1;700\n").wires[0].length_m == Approx(0.7));
    CHECK(list_of("from;to;length\nA:1;B:1;7\n").wires[0].length_m == Approx(7));
    CHECK(list_of("from;to;gauge\nA:1;B:1;20\n").wires[0].section_mm2 == Approx(0.518).margin(0.001));
    CHECK(list_of("from;to;colour\nA:1;B:1;ge/sw\n", "colours=german").wires[0].colour ==
          harness::Colour{"YE", "BK"});
}

TEST_CASE("a list without a header, or an option that names no column, is refused with what to do") {
    const Finding header = list_refusal("a;b;c\n1;2;3\n");
    CHECK(header.id == "csv-header");
    CHECK(header.next_step.find("--columns") != std::string::npos);
    const Finding column = list_refusal("from;to;lenght\nA:1;B:1;3\n", "length=length m");
    CHECK(column.id == "csv-option");
    CHECK(list_refusal("from;to\nA:1;B:1\n", "form=from").nearest == "from");
    CHECK(list_refusal("from;to\nA:1;B:1\n", "colours=french").id == "csv-option");
}

TEST_CASE("text that is no list of this encoding is refused with how to save it") {
    const Finding latin = list_refusal("from;to;colour\nZ\xFCndspule:1;B:1;BK\n");
    CHECK(latin.id == "csv-encoding");
    CHECK(latin.location.line == 2);
    CHECK(latin.next_step == "in the spreadsheet, save it as \"CSV UTF-8\"");
    CHECK(list_refusal(std::string("\xFF\xFE"
                                   "f\0r\0o\0m\0",
                                   10))
              .message == "the file is UTF-16 (\"Unicode text\")");
    CHECK(list_refusal("").id == "csv-empty");
    CHECK(list_refusal(";;;\n;;\n").id == "csv-empty");
    const Finding quote = list_refusal("from;to\nA:1;\"B:1\nC:1;D:1\n");
    CHECK(quote.id == "csv-quote");
    CHECK(quote.location.line == 2);
    CHECK(quote.location.column == 5);
}

TEST_CASE("more rows than any vehicle has are refused") {
    std::string text = "from;to\n";
    for (std::size_t row = 0; row < draft::most_rows + 1; ++row) text += "A:1;B:1\n";
    CHECK(list_refusal(text).id == "csv-too-long");
}

TEST_CASE("parts are what the list says they are, and guessed only where told") {
    const std::string rows = "from;cavity;to;cavity\nGW;1;X1;4\nX1;4;M1;1\nM1;2;S1;1\nS1;1;M2;1\nS1;2;M3;1\n";
    const auto part = [](const draft::Loom& loom, const std::string& id) {
        return *std::find_if(loom.parts.begin(), loom.parts.end(),
                             [&](const auto& it) { return it.id == id; });
    };
    CHECK(part(list_of(rows), "S1").use == draft::PartUse::Plug);
    CHECK(part(list_of(rows), "X1").mate == draft::nowhere);
    CHECK(part(list_of(rows, "splices=S"), "S1").use == draft::PartUse::Splice);
    const draft::Loom halves = list_of(rows, "connectors=X");
    CHECK(part(halves, "X1").half == 'a');
    CHECK(halves.parts[halves.wires[0].ends[1].part].half == 'a');
    CHECK(halves.parts[halves.wires[1].ends[0].part].half == 'b');
    // Two wires listed to one cavity are no two sides of a connector.
    const std::string crimped = "from;cavity;to;cavity\nGW;1;X1;4\nM2;1;X1;4\nX1;4;M1;1\n";
    CHECK(part(list_of(crimped, "connectors=X"), "X1").mate == draft::nowhere);
    CHECK(part(list_of("from;to\nGW:1;G1:1\n", "eyelets=G1"), "G1").use == draft::PartUse::Eyelet);
    for (const std::string marks : {".a .b", "-M -F", "P J", "_P _J"}) {
        const std::string one = "X1" + marks.substr(0, marks.find(' '));
        const std::string other = "X1" + marks.substr(marks.find(' ') + 1);
        const draft::Loom loom = list_of("from;to\nGW:1;" + one + ":4\n" + other + ":4;M1:1\n");
        INFO(marks);
        CHECK(part(loom, one).half == 'a');
        CHECK(part(loom, other).half == 'b');
        CHECK(part(loom, one).connector == "X1");
        // Without a cavity in common they are two connectors.
        CHECK(part(list_of("from;to\nGW:1;" + one + ":4\n" + other + ":5;M1:1\n"), one).mate ==
              draft::nowhere);
    }
}

TEST_CASE("figures are read as written, and not where a comma could mean thousands") {
    using draft::csv_number;
    CHECK(csv_number("0,5", false) == 0.5);
    CHECK(csv_number("1.250,5", false) == 1250.5);
    CHECK(csv_number("1,250.5", true) == 1250.5);
    CHECK(csv_number("1 250", false) == 1250);
    CHECK(csv_number("1\xC2\xA0"
                     "250",
                     false) == 1250);
    CHECK(csv_number("1,25", true) == 1.25);
    CHECK_FALSE(csv_number("1,250", true));
    CHECK(csv_number("1,250", false) == 1.25);
    CHECK_FALSE(csv_number("-3", false));
    CHECK_FALSE(csv_number("1,2,3", false));
    CHECK_FALSE(csv_number("far", false));
    CHECK(draft::csv_section("AWG 20", false, false).value == Approx(0.518).margin(0.001));
    CHECK(draft::csv_section("0,5 mm²", true, false).value == 0.5);
    CHECK_FALSE(draft::csv_section("300", false, false).readable);
    CHECK(draft::csv_length("30 cm", 1, false).value == Approx(0.3));
    CHECK(draft::csv_length("300", 0.001, false).value == Approx(0.3));
    CHECK_FALSE(draft::csv_length("300", 0, false).unit_known);
}

TEST_CASE("a wire list is known by its header") {
    CHECK(draft::looks_like_wire_list(trailer_list()));
    CHECK_FALSE(draft::looks_like_wire_list("bus body: CAN-H CAN-L\nGW 1 2 - X1.a 4 5\n"));
    CHECK_FALSE(draft::looks_like_wire_list(test::read_file("tests/data/small_chain.json")));
    CHECK_FALSE(draft::looks_like_wire_list(""));
}

TEST_CASE("a list cut at any byte, or with a byte changed, is read or refused and never worse") {
    const std::string whole = trailer_list();
    for (std::size_t at = 0; at < whole.size(); at += 7) {
        std::string text = whole;
        text[at] = "\";,\n\xFF"[at % 5];
        for (const std::string& it : {text, whole.substr(0, at)}) {
            const draft::LoomRead read = draft::read_csv(it, "loom.csv", "");
            CHECK(read.loom.has_value() == !any_error(read.findings));
        }
    }
}
