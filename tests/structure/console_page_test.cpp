// The reader of pages that documents_test.cpp goes by: what is not as shown has to be seen.
#include "support/console_page.hpp"

#include "support/catch.hpp"

using namespace halfsplit::test;

namespace {

// A page with one block of the kind.
std::string page_with(const std::string& kind, const std::string& text) {
    return "# A page\n\n```" + kind + "\n" + text + "```\n\nWords.\n";
}

PageStep first_step(const std::string& text) {
    return read_console_page(text).steps.at(0);
}

}  // namespace

TEST_CASE("a console block is its commands and what they print") {
    const ConsolePage page = read_console_page(page_with("console", "$ one\na\n\nb\n\n$ two\n"));
    REQUIRE(page.steps.size() == 2);
    REQUIRE(page.steps[0].text == "one");
    REQUIRE(page.steps[0].line == 3);
    REQUIRE(page.steps[1].text == "two");
    REQUIRE(is_as_shown(page.steps[0], {"a", "b  "}));
    REQUIRE(is_as_shown(page.steps[1], {}));
    REQUIRE_FALSE(is_as_shown(page.steps[0], {"a"}));
    REQUIRE_FALSE(is_as_shown(page.steps[0], {"a", "b", "c"}));
    REQUIRE_FALSE(is_as_shown(page.steps[0], {"a", "x"}));
    REQUIRE_FALSE(is_as_shown(page.steps[1], {"a"}));
}

TEST_CASE("a line of three points stands for lines left out, and for nothing else") {
    const PageStep step = first_step(page_with("console", "$ one\na\n...\nd\n...\n"));
    REQUIRE(is_as_shown(step, {"a", "d"}));
    REQUIRE(is_as_shown(step, {"a", "b", "d", "c", "d", "e"}));
    REQUIRE_FALSE(is_as_shown(step, {"b", "a", "d"}));
    REQUIRE_FALSE(is_as_shown(step, {"a", "b", "c"}));
    REQUIRE_FALSE(is_as_shown(first_step(page_with("console", "$ one\n...\nd\n")), {"d", "e"}));
}

TEST_CASE("a conversation goes on over blocks, and its typed lines are those behind its prompts") {
    const std::string text =
        page_with("console", "$ halfsplit hunt van.json --job a.job\nhello\nwhat> dead\n") +
        page_with("console", "X1.a:4 to clip> 0.4\nvan> \nbye\n");
    const ConsolePage page = read_console_page(text);
    REQUIRE(page.steps.size() == 1);
    REQUIRE(typed_lines(page.steps[0]) == "dead\n0.4\n\n");
    REQUIRE(is_as_shown(page.steps[0], {"hello", "what> dead", "X1.a:4 to clip> 0.4", "van>", "bye"}));
    REQUIRE(typed_lines(first_step(page_with("console", "$ cat a\nx> y\n"))).empty());
}

TEST_CASE("commands without their output, files, and commands that nobody would run") {
    const ConsolePage page = read_console_page(
        page_with("sh", "# a remark\nhalfsplit check a.json\n") + page_with("json a.json", "{}\n") +
        page_with("text", "halfsplit check a.json\n") + "    halfsplit hunt a.json\n    half an hour\n");
    REQUIRE(page.steps.size() == 2);
    REQUIRE_FALSE(page.steps[0].shown);
    REQUIRE(page.steps[1].kind == PageStep::Kind::File);
    REQUIRE(page.steps[1].text == "a.json");
    REQUIRE(lines_of(page.steps[1]) == Lines{"{}"});
    REQUIRE(page.stray.size() == 2);
}

TEST_CASE("a command of Windows' console is run with slashes") {
    const ConsolePage page = read_console_page(page_with("bat", "halfsplit check data\\a.json\n"));
    REQUIRE(page.steps.size() == 1);
    REQUIRE(page.steps[0].text == "halfsplit check data/a.json");
    REQUIRE_FALSE(page.steps[0].shown);
    REQUIRE(page.stray.empty());
}

TEST_CASE("a block that does not end, and one that goes on with nothing, are refused") {
    REQUIRE_THROWS(read_console_page("```console\n$ one\n"));
    REQUIRE_THROWS(read_console_page(page_with("console", "one\n")));
    REQUIRE_THROWS(read_console_page(page_with("sh", "one\n") + page_with("console", "two\n")));
}

TEST_CASE("an approved page has what came out, and leaves out what was left out") {
    const std::string text = page_with("console", "$ one\na\n...\nd\ne\n\n$ two\n");
    const ConsolePage page = read_console_page(text);
    REQUIRE(approved(page, {{"a", "b", "d", "e"}, {}}) == text);
    REQUIRE(approved(page, {{"a", "b", "d", "E", "f"}, {"new"}}) ==
            page_with("console", "$ one\na\n...\nd\nE\nf\n\n$ two\nnew\n"));
    REQUIRE(approved(page, {{"x", "y"}, {}}) == page_with("console", "$ one\nx\ny\n\n$ two\n"));
}

TEST_CASE("what came out of a conversation is parted where its blocks were") {
    const std::string start = "$ halfsplit hunt a.json --job a.job\n";
    const ConsolePage page = read_console_page(page_with("console", start + "hello\n...\nfirst> 1\n") +
                                               page_with("console", "second> 2\nbye\n"));
    REQUIRE(approved(page, {{"hello", "x", "first> 1", "new", "second> 2", "ciao"}}) ==
            page_with("console", start + "hello\n...\nfirst> 1\nnew\n") +
                page_with("console", "second> 2\nciao\n"));
}
