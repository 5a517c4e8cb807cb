// What people, and files from strangers, can put into names and notes: markup, escape sequences, marks that
// turn the direction of text. It is shown as text everywhere, and goes out to no terminal.
#include "halfsplit/base/text.hpp"
#include "halfsplit/cli/run.hpp"

#include <nlohmann/json.hpp>

#include "cli/shown_stream.hpp"
#include "support/catch.hpp"
#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"

#include <algorithm>
#include <map>
#include <pugixml.hpp>
#include <regex>
#include <set>
#include <sstream>

using namespace halfsplit;
using nlohmann::json;

namespace {

// As a name in JSON and as typed. The controls are those of Unicode 15: ESC [ in both forms, BEL, every
// character with the property Bidi_Control, the line separators.
const std::string hostile =
    "<script>alert(1)</script>\x1b[31m\xc2\x9b"
    "31m\"><img src=x onerror=alert(2)>]]>&amp;'\x07\xe2\x80\xae\xe2\x80\xac\xe2\x81\xa6\xd8\x9c\xe2\x80\x8f"
    "\xe2\x80\xa8\x7f";

struct Said {
    int code = 0;
    std::string out, err;
};

Said say(test::FakeFiles& files, const std::vector<std::string>& arguments, const std::string& typed = "") {
    test::FakeClock clock;
    std::istringstream in(typed);
    std::ostringstream out, err;
    cli::PlainTerminal terminal(in, out, 80);
    cli::Context context{out, err, files, clock, terminal};
    const int code = cli::run(arguments, context);
    return {code, out.str(), err.str()};
}

// The small chain, every name and title of which ends so.
std::string hostile_harness() {
    json file = json::parse(test::read_file("tests/data/small_chain.json"));
    const auto spoil = [](json& at, const char* key) { at[key] = at.value(key, "") + hostile; };
    for (const char* key : {"title", "vehicle", "note"}) spoil(file, key);
    for (const char* list : {"networks", "options", "places", "covers", "modules", "connectors", "splices",
                             "terminators", "runs"})
        for (json& each : file[list]) spoil(each, list == std::string("runs") ? "note" : "name");
    spoil(file["socket"], "name");
    file["networks"][0]["lines"]["h"] = "H<b>\x1b[1m\xe2\x80\xae";
    file["connectors"][0]["other_wires"][0]["circuit"] = "=1+1" + hostile;
    return file.dump(1);
}

// A whole hunt, with such text in every answer that takes words.
std::string hostile_answers() {
    return "=cmd" + hostile + "\n" + hostile + "\n" + hostile + "\n" + hostile + "\nM1\ny 10\n" +
           "reading X2.b:1 clip 0.5\nnote " + hostile + "\n" + hostile + "\nreading " + hostile +
           " clip 0.5\nwhere " + hostile + "\nwhy\nmap\nseen X1 faulty " + hostile + "\n4 " + hostile +
           "\n59.4\ny\ny\ny\ny\ny\n";
}

// Nothing but text, line ends and tabs.
void require_tame(const std::string& what, const std::string& text) {
    INFO(what);
    CHECK(valid_utf8(text));
    CHECK(text == printable_lines(text));
}

struct Counted {
    std::map<std::string, std::size_t> elements;
    std::set<std::string> attributes;
    std::string words;
};

void count_in(const pugi::xml_node& node, Counted& counted) {
    for (const pugi::xml_node child : node.children()) {
        if (child.type() == pugi::node_pcdata) counted.words += child.value();
        if (child.type() != pugi::node_element) continue;
        ++counted.elements[child.name()];
        for (const pugi::xml_attribute attribute : child.attributes())
            counted.attributes.insert(attribute.name());
        count_in(child, counted);
    }
}

// HTML as XML: what stands empty is closed.
Counted parsed(const std::string& markup) {
    const std::string closed =
        std::regex_replace(markup, std::regex("<(meta|br|hr|col|img)([^>]*[^/>])?>"), "<$1$2/>");
    pugi::xml_document document;
    const auto result = document.load_buffer(closed.data(), closed.size(), pugi::parse_default);
    INFO(result.description() << " near " << closed.substr(static_cast<std::size_t>(result.offset), 80));
    CHECK(result);
    Counted counted;
    count_in(document, counted);
    return counted;
}

// The same elements in the same number as where all names are plain, and no attribute that is not there.
void require_same_shape(const std::string& spoiled, const std::string& plain) {
    const Counted one = parsed(spoiled), other = parsed(plain);
    for (const auto& [name, count] : one.elements) {
        INFO(name);
        CHECK(other.elements.count(name) == 1);
    }
    for (const std::string& name : one.attributes) {
        INFO(name);
        CHECK(other.attributes.count(name) == 1);
        CHECK(name.rfind("on", 0) != 0);
    }
    CHECK(one.words.find("<script>alert(1)</script>") != std::string::npos);
    CHECK(one.elements.count("script") + one.elements.count("img") == 0);
}

// A hunt played on a harness, in these files.
Said play(test::FakeFiles& files, const std::string& harness, const std::string& answers) {
    files.put("a.json", harness);
    return say(files, {"hunt", "a.json", "--job", "a.job"}, answers);
}

}  // namespace

TEST_CASE("hostile text in a harness and a job goes out to no terminal and is markup nowhere") {
    test::FakeFiles files, plain;
    const Said hunt = play(files, hostile_harness(), hostile_answers());
    play(plain, test::read_file("tests/data/small_chain.json"),
         std::regex_replace(hostile_answers(), std::regex("[^a-zA-Z0-9\\n. :]"), ""));
    REQUIRE(files.exists("a.job"));
    CHECK(files.text_of("a.job").find("onerror") != std::string::npos);
    require_tame("hunt", hunt.out + hunt.err);
    using Words = std::vector<std::string>;
    for (const Words& words :
         {Words{"check", "a.json"}, Words{"draw", "a.json", "--text"},
          Words{"draw", "--job", "a.job", "--text"}, Words{"draw", "a.json"}, Words{"review", "a.job"},
          Words{"next", "a.job"}, Words{"card", "a.json"}, Words{"survey", "a.json"},
          Words{"survey", "a.json", "--format", "csv"}, Words{"review", "a.job", "a.job", "--csv"},
          Words{"rehearse", "a.json", "--list"}, Words{"note", "a.job", hostile}, Words{hostile},
          Words{"check", "--" + hostile}, Words{"check", hostile + ".json"},
          Words{"draw", "a.json", "--network", hostile}}) {
        const Said said = say(files, words);
        CHECK(said.code != cli::Exit::own_failure);
        CHECK(said.out.size() + said.err.size() > 10);
        require_tame(join(words, " "), said.out + said.err);
    }
    for (const Words& words :
         {Words{"draw", "a.json", "-o", "out"}, Words{"draw", "--job", "a.job", "-o", "out"},
          Words{"review", "a.job", "--html", "out"}, Words{"card", "a.json", "--html", "out"}}) {
        INFO(join(words, " "));
        CHECK(say(files, words).code == cli::Exit::fine);
        CHECK(say(plain, words).code == cli::Exit::fine);
        require_tame(words.front(), files.text_of("out"));
        require_same_shape(files.text_of("out"), plain.text_of("out"));
    }
}

TEST_CASE("data as JSON loses nothing of a hostile name, and is tame as well") {
    test::FakeFiles files;
    play(files, hostile_harness(), hostile_answers());
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"review", "a.job", "--json"}, {"card", "a.json", "--json"}}) {
        const Said said = say(files, words);
        require_tame(words.front(), said.out);
        CHECK(json::parse(said.out).dump().find(json(hostile).dump().substr(1, 60)) != std::string::npos);
    }
}

TEST_CASE("errors of check quote a line with hostile text as text") {
    test::FakeFiles files;
    std::string text = hostile_harness();
    text.replace(text.find("\"X1\""), 4, "\"X1\\u202e\xe2\x80\xae\"");
    files.put("a.json", text);
    const Said said = say(files, {"check", "a.json"});
    CHECK(said.code == cli::Exit::findings);
    CHECK(said.out.find("cannot be an id [bad-name]") != std::string::npos);
    require_tame("check", said.out + said.err);
    // Bytes that no text can hold are findings, with their place.
    for (const std::string& bytes : {std::string("\xff\xfe"), std::string(1, '\0')}) {
        files.put("a.json", std::regex_replace(test::read_file("tests/data/small_chain.json"),
                                               std::regex("kick panel"), "kick " + bytes));
        const Said refused = say(files, {"check", "a.json"});
        CHECK(refused.out.find("a.json:19:") != std::string::npos);
        CHECK(refused.out.find("[json-encoding]") != std::string::npos);
        require_tame("check", refused.out);
    }
}

TEST_CASE("in a table for spreadsheets no text begins as a formula does") {
    for (const std::string start : {"=", "+", "-", "@"}) {
        test::FakeFiles files;
        json file = json::parse(test::read_file("tests/data/small_chain.json"));
        file["vehicle"] = start + "1+cmd|' /C calc'!A0,\"x\"";
        play(files, file.dump(1), "q\n");
        const std::string table = say(files, {"review", "a.job", "a.job", "--csv"}).out;
        INFO(table);
        CHECK(table.find(",\"'" + start + "1+cmd|' /C calc'!A0,\"\"x\"\"\",") != std::string::npos);
    }
}

TEST_CASE("a stream for a terminal holds back half a character, and lets bold pass where there is any") {
    std::ostringstream plain, strong;
    {
        cli::ShownStream to_plain(plain, false), to_strong(strong, true);
        for (std::ostream* out :
             {static_cast<std::ostream*>(&to_plain), static_cast<std::ostream*>(&to_strong)}) {
            *out << "t\xc3"
                 << "\xbcr\t" << '\xe2' << '\x80' << '\xae' << "\x1b[1mgo\x1b[0m \x1b[31m\n"
                 << '\xe2';
        }
    }
    CHECK(plain.str() == "t\xc3\xbcr\t??[1mgo?[0m ?[31m\n?");
    CHECK(strong.str() == "t\xc3\xbcr\t?\x1b[1mgo\x1b[0m ?[31m\n?");
}
