// Whoever follows a link in the documents arrives: every link within the project leads to a file, and to a
// heading where it names one; every page can be reached from docs/README.md; and no text anywhere in the
// project names a page of docs/ that is not there.
#include "support/catch.hpp"
#include "support/console_page.hpp"
#include "support/documents.hpp"
#include "support/files_of_tests.hpp"

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <map>
#include <regex>
#include <set>

namespace {

namespace fs = std::filesystem;
using namespace halfsplit;

// The anchor of a heading as viewers of Markdown make it (common practice, no source): small letters, blanks
// as hyphens, all else but letters, digits, "-" and "_" left out; of a link its text.
std::string anchor_of(const std::string& heading) {
    static const std::regex link(R"(\[([^\]]*)\]\([^)]*\))");
    std::string anchor;
    for (const char c : std::regex_replace(heading, link, "$1")) {
        const auto byte = static_cast<unsigned char>(c);
        if (std::isalnum(byte) != 0 || c == '-' || c == '_' || byte >= 0x80) {
            anchor += static_cast<char>(std::tolower(byte));
        } else if (c == ' ') {
            anchor += '-';
        }
    }
    return anchor;
}

std::set<std::string> anchors_of(const std::string& path) {
    static const std::regex heading(R"(^#+ +(.*)$)");
    std::set<std::string> anchors;
    std::map<std::string, int> seen;
    std::smatch match;
    for (const std::string& line : test::prose_of(path)) {
        if (!std::regex_match(line, match, heading)) continue;
        const std::string anchor = anchor_of(match[1]);
        const int before = seen[anchor]++;
        anchors.insert(before == 0 ? anchor : anchor + "-" + std::to_string(before));
    }
    return anchors;
}

struct Link {
    std::string target, anchor;  // path from the top of the project; empty where none is named
};

std::vector<Link> links_of(const std::string& path) {
    static const std::regex pattern(R"(\]\(([^)\s#]*)(#([^)\s]*))?\))");
    std::vector<Link> links;
    for (const std::string& line : test::prose_of(path)) {
        for (std::sregex_iterator match(line.begin(), line.end(), pattern), end; match != end; ++match) {
            const std::string named = (*match)[1];
            if (named.find("://") != std::string::npos) continue;
            const fs::path target = named.empty() ? fs::path(path) : fs::path(path).parent_path() / named;
            links.push_back({target.lexically_normal().generic_string(), (*match)[3]});
        }
    }
    return links;
}

// The texts in which a page of docs/ may be named.
std::vector<fs::path> sources_and_documents() {
    static const std::set<std::string> kinds{".cpp", ".hpp",  ".md",    ".txt",  ".json",
                                             ".sh",  ".dict", ".cmake", ".wires"};
    std::vector<fs::path> files{test::path_of("README.md"), test::path_of("DEVELOPERS.md"),
                                test::path_of("CMakeLists.txt")};
    for (const std::string folder : {"docs", "data", "include", "src", "tests"}) {
        for (const auto& entry : fs::recursive_directory_iterator(test::path_of(folder))) {
            if (kinds.count(entry.path().extension().string()) == 1) files.push_back(entry.path());
        }
    }
    return files;
}

}  // namespace

TEST_CASE("every link of the documents leads to a file, and to a heading where it names one") {
    std::size_t checked = 0;
    for (const std::string& path : test::document_paths()) {
        for (const Link& link : links_of(path)) {
            INFO(path << " links to " << link.target << " # " << link.anchor);
            CHECK(fs::exists(test::path_of(link.target)));
            if (!link.anchor.empty() && fs::exists(test::path_of(link.target)))
                CHECK(anchors_of(link.target).count(link.anchor) == 1);
            ++checked;
        }
    }
    CHECK(checked > 100);
}

TEST_CASE("docs/README.md leads to every page, and README.md leads there") {
    std::set<std::string> linked;
    for (const Link& link : links_of("docs/README.md")) linked.insert(link.target);
    for (const std::string& path : test::document_paths()) {
        if (path.rfind("docs/", 0) != 0 || path == "docs/README.md") continue;
        INFO(path << " is a page that the map does not name");
        CHECK(linked.count(path) == 1);
    }
    const auto from_top = links_of("README.md");
    CHECK(std::any_of(from_top.begin(), from_top.end(),
                      [](const Link& link) { return link.target == "docs/README.md"; }));
}

TEST_CASE("no text of the project names a page of docs/ that is not there") {
    static const std::regex pattern(R"(\bdocs/[A-Za-z0-9_/-]+\.(md|svg|json|sh)\b)");
    std::size_t checked = 0;
    for (const fs::path& file : sources_and_documents()) {
        const std::string text = test::read_file(fs::relative(file, test::path_of(".")).generic_string());
        for (std::sregex_iterator match(text.begin(), text.end(), pattern), end; match != end; ++match) {
            INFO(file.string() << " names " << match->str());
            CHECK(fs::exists(test::path_of(match->str())));
            ++checked;
        }
    }
    CHECK(checked > 50);
}
