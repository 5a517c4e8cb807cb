// The program needs no network and cannot reach one.
#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/shell.hpp"
#include "support/temporary_folder.hpp"

#include <filesystem>
#include <fstream>
#include <regex>

using namespace halfsplit;

TEST_CASE("the program asks the system for nothing that reaches a network") {
    const test::Ran ran = test::run_shell(std::string("nm -D --undefined-only ") + HALFSPLIT_PROGRAM);
    REQUIRE(ran.code == 0);
    REQUIRE(std::regex_search(ran.out, std::regex("\\b(write|fsync|fdatasync)\\b")));  // the list is one
    static const std::regex network(
        "\\b(socket|socketpair|connect|bind|listen|accept4?|send(to|msg|mmsg)?|recv(from|msg|mmsg)?|"
        "getaddrinfo|"
        "gethostbyname2?(_r)?|res_n?(query|search|init)|curl_\\w+|SSL_\\w+)\\b");
    std::smatch found;
    const bool any = std::regex_search(ran.out, found, network);
    INFO((any ? found.str() : ""));
    CHECK_FALSE(any);
}

TEST_CASE("a check, a hunt and its review work where there is no network at all") {
    // As root at once, otherwise as root of a user namespace of its own; neither may be allowed in a
    // container.
    std::string without;
    for (const std::string way : {"unshare -n ", "unshare -rn "}) {
        if (without.empty() && test::run_shell(way + "true").code == 0) without = way;
    }
    if (without.empty()) {
        WARN("no namespace without a network can be made here: not tried");
        return;
    }
    const test::TemporaryFolder folder;
    for (const std::string name : {"minibus.json", "library"})
        std::filesystem::copy(test::path_of("data/demo/" + name), folder / name,
                              std::filesystem::copy_options::recursive);
    std::ofstream(folder / "session") << R"sh(set -e
test "$(tail -n +3 /proc/net/dev | grep -vc ' *lo:')" = 0
"$1" check minibus.json
"$1" note minibus.json --job a.job intake complaint=dead
"$1" note minibus.json --job a.job answers silent LIFT,REAR
"$1" note minibus.json --job a.job safe ignition=off bus=asleep battery=off waited=10
"$1" next minibus.json --job a.job
"$1" note minibus.json --job a.job 0.4
"$1" review a.job --html a.html
)sh";
    const test::Ran ran = test::run_shell("cd '" + folder.path().string() + "' && " + without +
                                          "bash session " + HALFSPLIT_PROGRAM);
    INFO(ran.out);
    CHECK(ran.code == 0);
    CHECK(std::filesystem::file_size(folder / "a.html") > 10000);
}
