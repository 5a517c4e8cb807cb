// Reading KBL: a loom of our own that keeps to the schema of VDA 4964 (2.4 SR-1), whole and with one thing
// broken at a time.
#include "halfsplit/draft/from_kbl.hpp"

#include "support/catch.hpp"
#include "support/drafts.hpp"
#include "support/files_of_tests.hpp"

#include <algorithm>

using namespace halfsplit;
using test::drafted;

namespace {

std::string trailer() {
    return test::read_file("data/demo/trailer.kbl");
}

std::string with(std::string text, const std::string& what, const std::string& instead) {
    const std::size_t at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), instead);
}

const draft::LoomWire& wire(const draft::Loom& loom, const std::string& id) {
    const auto found = std::find_if(loom.wires.begin(), loom.wires.end(),
                                    [&](const draft::LoomWire& it) { return it.id == id; });
    REQUIRE(found != loom.wires.end());
    return *found;
}

draft::Loom loom_of(const std::string& text) {
    const draft::LoomRead read = draft::read_kbl(text, "loom.kbl");
    INFO(to_text(read.findings));
    REQUIRE(read.loom);
    return *read.loom;
}

// The one error of a text that gives no loom.
Finding refusal(const std::string& text) {
    const draft::LoomRead read = draft::read_kbl(text, "loom.kbl");
    REQUIRE_FALSE(read.loom);
    REQUIRE(read.findings.size() == 1);
    CHECK_FALSE(read.findings.front().next_step.empty());
    return read.findings.front();
}

}  // namespace

TEST_CASE("a KBL's wires come with ends, colours, sections and lengths") {
    const draft::Loom loom = loom_of(trailer());
    CHECK(loom.title == "Trailer loom, invented");
    CHECK(loom.wires.size() == 15);  // 12 of their own, 2 cores and the shield that a connection names
    const draft::LoomWire& lamp = wire(loom, "2");
    CHECK(lamp.signal == "LAMP_L");
    CHECK(loom.parts[lamp.ends[0].part].id == "S1");
    CHECK(loom.parts[lamp.ends[0].part].use == draft::PartUse::Splice);
    CHECK(loom.parts[lamp.ends[1].part].name == "rear lamp, left");
    CHECK(lamp.ends[1].cavity == "2");
    CHECK(lamp.colour == harness::Colour{"GY", "RD"});
    CHECK(lamp.section_mm2 == Approx(1));
    CHECK(lamp.length_m == Approx(0.7));
    CHECK(wire(loom, "4").colour == harness::Colour{"BN", ""});  // "/NULL" is no stripe
    CHECK(wire(loom, "4").section_mm2 == Approx(1.5));           // written "1.5E0"
    CHECK(wire(loom, "10").colour.base == "BK");                 // "blk" among German codes
    CHECK(wire(loom, "7.1").colour == harness::Colour{"YE", "BK"});
    CHECK(wire(loom, "7.1").length_m == Approx(4.3));  // in metres, where the others are in millimetres
    CHECK(wire(loom, "7.1").twisted);
    CHECK(wire(loom, "7.1").group == wire(loom, "7.2").group);
}

TEST_CASE("a wire without a length has that of its way over the segments") {
    const draft::Loom loom = loom_of(trailer());
    // 2 m made (not the 2.1 m drawn), and 4 m as the crow flies where no length is stated.
    CHECK(wire(loom, "1").length_m == Approx(6));
    CHECK(wire(loom, "1").assumed.find("its way through the layout") != std::string::npos);
    CHECK(wire(loom, "3").length_m == 0);  // neither a length nor a way
}

TEST_CASE("parts have the places of their nodes, a ring terminal that of the terminal in it") {
    const draft::Loom loom = loom_of(trailer());
    const auto part = [&](const std::string& id) {
        return *std::find_if(loom.parts.begin(), loom.parts.end(),
                             [&](const auto& it) { return it.id == id; });
    };
    CHECK(part("G1").node == "N9");
    CHECK(part("G1").use == draft::PartUse::Eyelet);
    CHECK(part("G1").name == "ground stud on the frame");
    CHECK(part("X1-plug").node == "N0");
    CHECK((*part("S1").at_m)[0] == Approx(4));
    CHECK(part("F.1").node.empty());
    CHECK(part("END").use == draft::PartUse::Open);
    CHECK(loom.parts[part("X1-plug").mate].id == "X1-jack");
}

TEST_CASE("every wire of a KBL that cannot be used has a reason") {
    const draft::Loom loom = loom_of(trailer());
    CHECK(wire(loom, "K7").unusable == "it is the cable's shield, which is no line");
    CHECK(wire(loom, "11").unusable == "it has 3 ends, and a wire has two");
    CHECK(wire(loom, "13").unusable == "no connection says where it goes");
    CHECK(std::count_if(loom.wires.begin(), loom.wires.end(),
                        [](const auto& it) { return !it.unusable.empty(); }) == 3);
    const std::vector<std::string> expected{
        "colour \"kariert\" of General_wire wOdd: no code of IEC 60757",
        "2 modules of the loom: all of them are taken as fitted",
        "6 nodes and 2 segments of the layout: kept are the nodes near parts, as places"};
    CHECK(loom.left_out == expected);
}

TEST_CASE("what refers to nothing, or to two things, makes a wire unusable and is told") {
    const auto why = [](const std::string& text, const std::string& id) {
        return wire(loom_of(text), id).unusable;
    };
    CHECK(why(with(trailer(), "<Contact_point>lampL_p02<", "<Contact_point>lampX<"), "2") ==
          "it ends at contact point \"lampX\" is not in the file");
    CHECK(why(with(trailer(), "<Contact_point>lampL_p02<", "<Contact_point>w4<"), "2") ==
          "contact point \"w4\" belongs to no connector");
    CHECK(why(with(trailer(), "<Contacted_cavity>lampL_s0_o2<", "<Contacted_cavity>gone<"), "2") ==
          "Contact_points lampL_p02 fills a cavity that is not there: \"gone\" is not in the file");
    CHECK(why(with(trailer(), "id=\"lampL_s0_o2\"><Part>hLamp_s0_c2<", "id=\"lampL_s0_o2\"><Part>gone<"),
              "2") == "Cavities lampL_s0_o2 has no number: \"gone\" is not in the file");
    // The wire of a connection is not there, and so no connection has this one.
    const draft::Loom stray = loom_of(with(trailer(), "<Wire>w2<", "<Wire>gone<"));
    CHECK(wire(stray, "2").unusable == "no connection says where it goes");
    CHECK(std::find(stray.left_out.begin(), stray.left_out.end(),
                    "connection \"c2\": its wire \"gone\" is not in the file") != stray.left_out.end());
    CHECK(why(with(trailer(), "<Wire>w2<", "<Wire>w3<"), "3") ==
          "several connections name it, and none says which end of it is whose");
    const draft::Loom partless = loom_of(with(trailer(), "id=\"w2\"><Part>wGyRd<", "id=\"w2\"><Part>gone<"));
    CHECK(wire(partless, "2").unusable.empty());
    CHECK(partless.left_out.front() == "colour and section of wire 2: its part \"gone\" is not in the file");
}

TEST_CASE("an id that stands twice is told with both places, and what refers to it is not used") {
    const std::string text = with(trailer(), "id=\"lampR_p02\"", "id=\"lampL_p02\"");
    const draft::LoomRead read = draft::read_kbl(text, "loom.kbl");
    REQUIRE(read.loom);
    REQUIRE(test::ids(read.findings) == std::vector<std::string>{"kbl-duplicate-id"});
    CHECK(read.findings.front().message.find("stands here again (see line 41)") != std::string::npos);
    CHECK(wire(*read.loom, "2").unusable ==
          "it ends at contact point \"lampL_p02\" stands in the file twice");
    CHECK(wire(*read.loom, "3").unusable == "it ends at contact point \"lampR_p02\" is not in the file");
}

TEST_CASE("the name of the namespace and its prefix do not matter") {
    std::string text =
        with(trailer(), "xmlns:kbl=\"http://www.prostep.org/Car_electric_container/KBL2.3/KBLSchema\"",
             "xmlns:q=\"http://www.prostep.org/Car_electric_container/KBL2.4/KBLSchema\"");
    text = with(with(text, "<kbl:KBL_container", "<q:KBL_container"), "</kbl:KBL_container",
                "</q:KBL_container");
    CHECK(loom_of(text).wires.size() == 15);
    CHECK(loom_of("\xEF\xBB\xBF" + trailer()).wires.size() == 15);
}

TEST_CASE("XML that is no KBL is refused by what it is") {
    CHECK(refusal("<Vec><Part/></Vec>").message == "the file is XML with the root \"Vec\"");
    CHECK(refusal("<kbl:KBL_container id=\"a\"><Node/></kbl:KBL_container>").id == "kbl-empty");
    CHECK(refusal("").id == "xml-syntax");
    const Finding cut = refusal(trailer().substr(0, 9000));
    CHECK(cut.id == "xml-syntax");
    CHECK(cut.next_step == "the file seems cut short: export it again");
    const Finding crossed = refusal("<KBL_container>\n<Harness>\n  </Herness></KBL_container>");
    CHECK(crossed.id == "xml-syntax");
    CHECK(crossed.location.line == 3);
    CHECK(crossed.source_line == "</Herness></KBL_container>");
}

TEST_CASE("a document type is refused, whatever its entities would be") {
    const std::string bomb =
        "<?xml version=\"1.0\"?>\n<!DOCTYPE k [<!ENTITY a \"ha\"><!ENTITY b \"&a;&a;&a;&a;\">]>\n";
    for (const std::string& type : {bomb, std::string("<!DOCTYPE k SYSTEM \"file:///etc/passwd\">\n"),
                                    std::string("<!DOCTYPE k [<!ENTITY x SYSTEM \"http://x/\">]>"),
                                    std::string("<!DOCTYPE k [ <!-- never closed ")}) {
        const Finding finding = refusal(type + "<KBL_container><Harness>&b;</Harness></KBL_container>");
        CHECK(finding.id == "xml-doctype");
        CHECK(finding.location.line == (type == bomb ? 2 : 1));
    }
    // Without one, an entity that is not XML's own stays what it is.
    CHECK(loom_of(with(trailer(), "Trailer loom, invented<", "&b; &amp; &lt;<")).title == "&b; & <");
}

TEST_CASE("text in another encoding is refused with the encoding it should have") {
    const Finding latin =
        refusal("<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>\n<KBL_container>Z\xFCnd</KBL_container>");
    CHECK(latin.id == "xml-encoding");
    CHECK(latin.location.line == 2);
    CHECK(latin.expected == "UTF-8; the file says ISO-8859-1");
    const std::string wide("\xFF\xFE<\0?\0x\0", 8);
    CHECK(draft::looks_like_xml(wide));
    CHECK(refusal(wide).message == "the file is UTF-16");
    CHECK(refusal(std::string("<KBL_container>\0</KBL_container>", 32)).id == "xml-encoding");
}

TEST_CASE("nesting without end is refused before anything walks it") {
    std::string deep = "<KBL_container><Harness>";
    for (int i = 0; i < 200'000; ++i) deep += "<a>";
    for (int i = 0; i < 200'000; ++i) deep += "</a>";
    CHECK(refusal(deep + "</Harness></KBL_container>").id == "xml-depth");
}

TEST_CASE("a KBL cut at any byte, or with a byte changed, is read or refused and never worse") {
    const std::string whole = trailer();
    for (std::size_t length = 0; length < whole.size(); length += 97) {
        const draft::LoomRead read = draft::read_kbl(whole.substr(0, length), "loom.kbl");
        CHECK_FALSE(read.loom);
        CHECK(read.findings.size() == 1);
    }
    for (std::size_t at = 0; at < whole.size(); at += 61) {
        std::string text = whole;
        text[at] = at % 2 == 0 ? 'x' : '<';
        const draft::LoomRead read = draft::read_kbl(text, "loom.kbl");
        CHECK(read.loom.has_value() == !any_error(read.findings));
    }
}
