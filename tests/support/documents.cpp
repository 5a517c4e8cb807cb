#include "support/documents.hpp"

#include "support/console_page.hpp"
#include "support/files_of_tests.hpp"

#include <algorithm>
#include <filesystem>

namespace halfsplit::test {

std::vector<std::string> document_paths() {
    namespace fs = std::filesystem;
    std::vector<std::string> paths{"README.md", "DEVELOPERS.md", "data/demo/README.md"};
    for (const auto& entry : fs::recursive_directory_iterator(path_of("docs"))) {
        if (entry.path().extension() == ".md")
            paths.push_back(fs::relative(entry.path(), path_of(".")).generic_string());
    }
    std::sort(paths.begin(), paths.end());
    return paths;
}

std::vector<std::string> prose_of(const std::string& path) {
    std::vector<std::string> prose;
    bool code = false;
    for (const std::string& line : lines_of_text(read_file(path))) {
        const bool fence = line.rfind("```", 0) == 0;
        if (fence) code = !code;
        if (!code && !fence && line.rfind("    ", 0) != 0) prose.push_back(line);
    }
    return prose;
}

}  // namespace halfsplit::test
