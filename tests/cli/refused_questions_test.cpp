// What `expect` is asked and cannot answer: each refusal says what to ask instead.
#include "support/catch.hpp"
#include "support/fake_files.hpp"
#include "support/files_of_tests.hpp"
#include "support/program.hpp"

using namespace halfsplit;

namespace {

std::string of_kind(const std::string& kind) {
    std::string text = test::read_file("tests/data/small_chain.json");
    const std::string usual = "iso11898-2";
    return text.replace(text.find(usual), usual.size(), kind);
}

struct Shelf {
    test::FakeFiles files;
    Shelf() {
        files.put("small.json", test::read_file("tests/data/small_chain.json"));
        files.put("bare.json", R"({"format": "halfsplit-harness", "version": 1,
                                   "networks": [{"id": "main", "kind": "other"}], "places": [{"id": "front"}]})");
        test::run_program({"note", "small.json", "--job", "a.job", "intake", "complaint=dead"}, files);
    }
    std::string refusal(std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), "expect");
        const test::Said said = test::run_program(arguments, files);
        CHECK(said.code == 2);
        CHECK(said.out.empty());
        return said.err;
    }
};

}  // namespace

TEST_CASE("a question that cannot be answered is refused with what to ask instead") {
    struct Case {
        std::vector<std::string> arguments;
        std::string says, next;
    };
    const std::vector<Case> cases{
        {{"bare.json", "--table"}, "this bus has no point where a probe can be set", "--network"},
        {{"other.json", "--table", "--state", "awake"}, "are not known here", "leave --state out"},
        {{"small.json", "--table", "--job", "a.job", "--network", "aux"},
         "this job is on network 'main'",
         "leave --network out"},
        {{"small.json"}, "give one of --between and --table", ""},
        {{"small.json", "--table", "--between", "X1.b:4"}, "give one of --between and --table", ""},
        {{"small.json", "--table", "--netlist"}, "--netlist goes with --between alone", ""},
        {{"small.json", "--between", "X1.b:4", "clip", "--netlist", "--json"},
         "--netlist goes with --between alone",
         ""},
    };
    Shelf shelf;
    shelf.files.put("other.json", of_kind("other"));
    for (const Case& one : cases) {
        const std::string told = shelf.refusal(one.arguments);
        INFO(told);
        CHECK(told.find(one.says) != std::string::npos);
        CHECK(told.find(one.next) != std::string::npos);
    }
}
