// From wires to a harness file: every wire is in it or listed with a reason, and the file is sound.
#include "halfsplit/draft/from_loom.hpp"
#include "halfsplit/draft/signals.hpp"
#include "halfsplit/harness/read.hpp"

#include "support/catch.hpp"
#include "support/drafts.hpp"
#include "support/files_of_tests.hpp"

#include <filesystem>
#include <random>

using namespace halfsplit;
using nlohmann::json;
using test::drafted;
using test::DraftedLine;

namespace {

std::string kbl() {
    return test::read_file("data/demo/trailer.kbl");
}

std::string list() {
    return test::read_file("tests/data/wires/trailer.csv");
}

void check_accounting(const DraftedLine& line) {
    INFO(to_text(line.drafted.findings));
    REQUIRE_FALSE(line.drafted.json.empty());
    CHECK(line.wires_used() + line.left_out("wire ").size() == line.loom.wires.size());
    CHECK(line.wires_used() > 0);
    CHECK(harness::read_harness(line.drafted.json, "drafted.json").harness);
}

// Each signal and each wire by its number.
void check_every_signal(const std::string& text) {
    const draft::LoomRead read = test::read_loom(text);
    REQUIRE(read.loom);
    for (const draft::LoomWire& wire : read.loom->wires) {
        for (const std::string& name : {wire.signal, wire.id}) {
            const DraftedLine line = drafted(text, "line=" + name);
            INFO(name);
            if (line.drafted.json.empty()) {
                CHECK(test::ids(line.drafted.findings) == std::vector<std::string>{"unknown-signal"});
            } else {
                check_accounting(line);
            }
        }
    }
}

}  // namespace

TEST_CASE("every wire of a loom is used or listed, whichever signal is chosen", "[kbl]") {
    check_every_signal(kbl());
    check_every_signal(list());
}

// VDA 4964 files of the association's public samples, read where they lie; not part of the project.
TEST_CASE("every wire of the association's sample looms is used or listed, whichever signal is chosen",
          "[kbl]") {
    const std::string folder = "../shared/data/kbl/";
    for (const auto& [name, wires] : {std::pair("generator_loom.kbl", 3), {"engine_front_loom.kbl", 18}}) {
        if (!std::filesystem::exists(test::path_of(folder + name))) continue;
        const std::string text = test::read_file(folder + name);
        const draft::LoomRead read = draft::LoomRead(test::read_loom(text));
        REQUIRE(read.loom);
        CHECK(read.findings.empty());
        CHECK(read.loom->wires.size() == static_cast<std::size_t>(wires));
        for (const draft::Signal& signal : draft::signals(*read.loom).all) {
            const DraftedLine line = drafted(text, signal.name);
            INFO(name << ": " << signal.name);
            check_accounting(line);
            CHECK(line.drafted.findings.empty());  // sound, without a warning
            CHECK(line.wires_used() >= signal.wires);
        }
    }
}

TEST_CASE("a line goes on behind a splice and a connector, under whatever name", "[kbl]") {
    const DraftedLine line = drafted(kbl(), "rear=LAMP_L");
    check_accounting(line);
    CHECK(line.assumed("LAMP_L goes on under other names, joined by metal: LAMP and LAMP_R"));
    CHECK(line.document["networks"][0]["kind"] == "single-line");
    CHECK(line.document["networks"][0]["id"] == "rear");
    CHECK(line.document["networks"][0]["clip"] == "F-1:3");  // alike in section, the longest wire
    CHECK(line.entry("runs", "W1")["h"]["from"] == "X1-plug+X1-jack.a:5");
    CHECK(line.entry("runs", "W6")["h"]["to"] == "X1-plug+X1-jack.b:5");
    CHECK(line.entry("runs", "W2")["h"] ==
          json{{"from", "S1:H"}, {"to", "LAMP-L:2"}, {"base", "GY"}, {"stripe", "RD"}});
    CHECK(line.entry("modules", "LAMP-L")["name"] == "LAMP.L, rear lamp, left");
    CHECK(line.entry("modules", "LAMP-L")["access"]["place"] == "N2");
    CHECK(line.entry("runs", "W3")["length_m"] == draft::usual_length_m);
    CHECK(line.assumed("length of wire 3: 1 m"));
    // Who else is in that connector, told as used beside its own line.
    CHECK(line.entry("connectors", "X1-plug+X1-jack")["other_wires"].size() == 3);
    CHECK(line.left_out("wire 7.1").front().find("; kept as a neighbour") != std::string::npos);
    CHECK(line.drafted.findings.empty());
}

TEST_CASE("a pair takes its wires together where they go the same way", "[kbl]") {
    const DraftedLine line = drafted(kbl(), "air=BUS_H,BUS_L");
    check_accounting(line);
    CHECK(line.wires_used() == 2);
    const json& run = line.entry("runs", "W7-1+W7-2");
    CHECK(run["h"]["to"] == "AIR:1");
    CHECK(run["l"]["to"] == "AIR:2");
    CHECK_FALSE(run.contains("twisted"));  // as usual
    CHECK(line.left_out("wire 10").front() ==
          "wire 10 (BUS_H): it has that name too, and nothing joins it to the rest: choose it by its number");
    CHECK(line.assumed("no terminators"));
}

TEST_CASE("a bus goes through a module with two pairs, and runs that differ in length stay apart") {
    const DraftedLine line = drafted(list(), "BUS-H,BUS-L");
    check_accounting(line);
    CHECK(line.document["networks"][0]["id"] == "BUS-H");
    CHECK(line.entry("modules", "AIR")["buses"][0] == json{{"network", "BUS-H"},
                                                           {"attach", "loop"},
                                                           {"in", {{"h", "7"}, {"l", "8"}}},
                                                           {"out", {{"h", "9"}, {"l", "10"}}}});
    CHECK(line.assumed("AIR: what goes in at 7 goes out at 9 inside it"));
    CHECK(line.entry("runs", "W3+W4")["l"]["from"] == "AIR:8");  // listed the other way round
    CHECK(line.entry("runs", "W5")["length_m"] == 0.8);
    CHECK(line.entry("runs", "W6")["length_m"] == 1.8);
    CHECK(line.entry("connectors", "X1")["halves"]["a"]["name"] == "X1-M");
}

TEST_CASE("wires in one contact become a splice close before it", "[kbl]") {
    const DraftedLine line = drafted(kbl(), "GND_L");
    check_accounting(line);
    CHECK(line.entry("splices", "G1-joint")["name"] == "wires crimped together in G1");
    CHECK(line.entry("runs", "W4")["h"]["to"] == "G1-joint:H");
    CHECK(line.entry("runs", "G1-joint-tail")["h"]["to"] == "G1:1");
    CHECK(line.assumed("several wires in G1"));
}

TEST_CASE("an open end is a connector that nothing goes on from, and check says so at the wire", "[kbl]") {
    const DraftedLine line = drafted(kbl(), "SPARE");
    check_accounting(line);
    CHECK(line.entry("connectors", "END")["id"] == "END");
    REQUIRE(test::ids(line.drafted.findings) == std::vector<std::string>{"loose-end"});
    CHECK(line.drafted.findings.front().location.line == 36);   // of the connection in the source
    CHECK(line.entry("runs", "W14")["h"]["from"] == "SW:B.2");  // the chamber, as the housing has two
}

TEST_CASE("a name that is not there, or a pair that metal joins, is refused", "[kbl]") {
    const auto refused = [](const std::string& choice) {
        const DraftedLine line = drafted(kbl(), choice);
        CHECK(line.drafted.json.empty());
        REQUIRE(line.drafted.findings.size() == 1);
        return line.drafted.findings.front();
    };
    CHECK(refused("LAMP_X").nearest == "LAMP_L");
    CHECK(refused("SHIELD").message ==
          "wire K7 (SHIELD) cannot be followed: it is the cable's shield, which is no line");
    CHECK(refused("LAMP_L,LAMP_R").id == "lines-joined");
    CHECK(refused("LAMP,LAMP").id == "lines-joined");
    CHECK(refused("").id == "unknown-signal");
}

TEST_CASE("names that a harness file cannot have are written in another way, each once") {
    const std::string text =
        "wire;signal;from;to\n1;a=b,c;A.1:p/q;A-1:none\n2;a=b,c;A-1:none;all:.x\n3;a=b,c;all:.x;\xC3\xBC:1\n";
    const DraftedLine line = drafted(text, "a=b,c");
    check_accounting(line);
    CHECK(line.document["networks"][0]["lines"]["h"] == "a=b,c");
    CHECK(line.entry("modules", "A-1")["name"] == "A.1");
    CHECK(line.entry("modules", "all-1")["name"] == "all");
    CHECK(line.entry("modules", "part")["name"] == "\xC3\xBC");
}

TEST_CASE("parts in reach of one another need no walk", "[kbl]") {
    const json document = drafted(kbl(), "GND_L").document;
    // The ring terminal sits where the right lamp does, the left lamp 1.2 m away.
    CHECK(document["travel"]["pairs"] == json::array({{{"between", {"N9", "N3"}}, {"minutes", 0}}}));
}

TEST_CASE("signals are listed with what they join, most wires first, and likely pairs", "[kbl]") {
    const draft::Signals all = draft::signals(*test::read_loom(kbl()).loom);
    CHECK(all.all.front().name == "BUS_H");
    CHECK(all.all.front().wires == 2);
    CHECK(all.pairs == std::vector<std::array<std::string, 2>>{{"BUS_H", "BUS_L"}});
    CHECK(all.nameless == 1);
    const std::string text = to_text(all, 80);
    CHECK(text.find("  LAMP: 2 wires, X1-plug, S1, F.1, X1-jack\n") != std::string::npos);
    CHECK(text.find("  --network BUS_H,BUS_L\n") != std::string::npos);
    const auto pairs = [](const std::string& one, const std::string& other) {
        return draft::signals(
                   *test::read_loom("signal;from;to\n" + one + ";A:1;B:1\n" + other + ";A:2;B:2\n").loom)
            .pairs.size();
    };
    CHECK(pairs("CAN1 HIGH", "can1 low") == 1);
    CHECK(pairs("DATA+", "DATA-") == 1);
    CHECK(pairs("FLEX_PLUS", "FLEX_MINUS") == 1);
    CHECK(pairs("HORN", "LAMP") == 0);
    CHECK(draft::signals(*test::read_loom("signal;from;to;cable\nX;A:1;B:1;K\nY;A:2;B:2;K\n").loom)
              .pairs.size() == 1);
}

TEST_CASE("whatever a wire list holds, its harness is sound or it is said why not") {
    std::mt19937 random(20261126);
    const auto any = [&](unsigned below) { return std::to_string(random() % below); };
    for (int round = 0; round < 120; ++round) {
        std::string text = "wire;signal;from;to;length m;size\n";
        for (int row = 0; row < 14; ++row) {
            const bool splice = random() % 4 == 0;
            text += any(12) + ";S" + any(3) + ";" + (splice ? "J" + any(2) : "P" + any(5) + ":" + any(4)) +
                    ";P" + any(5) + ":" + any(4) + ";" + any(3) + ";" + any(2) + "\n";
        }
        for (const std::string choice : {"S0", "S1", "S0,S1", "3"}) {
            const DraftedLine line = drafted(text, choice, "splices=J");
            INFO(text << choice << '\n' << to_text(line.drafted.findings));
            if (line.drafted.json.empty()) {
                REQUIRE(any_error(line.drafted.findings));
                const std::string& id = line.drafted.findings.front().id;
                CHECK((id == "unknown-signal" || id == "lines-joined"));
            } else {
                check_accounting(line);
            }
        }
    }
}
