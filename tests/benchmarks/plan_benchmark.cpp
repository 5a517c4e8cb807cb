// Rules of thumb against the optimum, and what a proof takes by size: two kinds of tables and a picture.
//     halfsplit_plan_benchmark            prints the tables
//     halfsplit_plan_benchmark FOLDER     writes them into FOLDER/benchmarks.md, between the marks there, and
//                                         the picture to FOLDER/plan_sizes.svg
//     halfsplit_plan_benchmark --large    prints what is known beyond proof, at up to 10,000 points
#include <fmt/format.h>

#include "benchmarks/plan_large.hpp"
#include "benchmarks/plan_rules.hpp"
#include "benchmarks/plan_sizes.hpp"

#include <cstdio>
#include <ctime>
#include <exception>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

namespace {

using namespace halfsplit::plan;

const std::string begin_mark = "<!-- written by halfsplit_plan_benchmark, from here -->\n";
const std::string end_mark = "<!-- to here -->\n";

std::string today() {
    const std::time_t now = std::time(nullptr);
    std::string text(10, ' ');
    std::strftime(text.data(), text.size() + 1, "%Y-%m-%d", std::gmtime(&now));
    return text;
}

// As the system names it.
std::string processor() {
    std::ifstream in("/proc/cpuinfo");
    for (std::string line; std::getline(in, line);)
        if (line.rfind("model name", 0) == 0) return line.substr(line.find(':') + 2);
    return "a processor the system does not name";
}

std::string compiler() {
#ifdef __clang__
    return fmt::format("clang {}.{}", __clang_major__, __clang_minor__);
#else
    return fmt::format("g++ {}", __VERSION__);
#endif
}

struct Report {
    std::string tables, picture;
};

std::string when_and_where() {
    return fmt::format("{}, one core of: {}; {}, {}.\n\n", today(), processor(), compiler(),
                       HALFSPLIT_BUILD_TYPE);
}

Report measured() {
    Report report;
    report.tables = when_and_where();
    report.tables += table_of_rules() + "\n";
    const auto one_line = measure_sizes(false), two_lines = measure_sizes(true);
    report.tables += table_of_proofs(one_line, two_lines) + "\n" + table_of_advice(one_line, two_lines);
    report.picture = plot_of_sizes(one_line, two_lines);
    return report;
}

std::string read(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) throw std::runtime_error("cannot read " + path + "; give the folder that holds benchmarks.md");
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

void write(const std::string& path, const std::string& text) {
    std::ofstream out(path, std::ios::binary);
    out << text;
    if (!out.flush()) throw std::runtime_error("cannot write " + path);
}

std::string between_marks(const std::string& page, const std::string& path, const std::string& tables) {
    const std::size_t from = page.find(begin_mark), to = page.find(end_mark);
    if (from == std::string::npos || to == std::string::npos || to < from)
        throw std::runtime_error(path + " has no place for the tables: expected the lines\n" + begin_mark +
                                 end_mark);
    return page.substr(0, from + begin_mark.size()) + "\n" + tables + "\n" + page.substr(to);
}

void run(const std::string& folder) {
    if (folder == "--large") {
        fmt::print("{}{}", when_and_where(), table_of_large());
        return;
    }
    if (folder.empty()) {
        fmt::print("{}", measured().tables);
        return;
    }
    const std::string path = folder + "/benchmarks.md";
    const std::string page = read(path);
    between_marks(page, path, "");  // better known before than after some minutes
    const Report report = measured();
    write(path, between_marks(page, path, report.tables));
    write(folder + "/plan_sizes.svg", report.picture);
}

}  // namespace

int main(int count, char** arguments) {
    try {
        run(count > 1 ? arguments[1] : "");
        return 0;
    } catch (const std::exception& error) {
        fmt::print(stderr, "halfsplit_plan_benchmark: {}\n", error.what());
        return 2;
    }
}
