// docs/reference/assumed-figures.md against the code: every figure with a name of its own stands in the file
// that its row names, with the value of the row; every member of "assumptions" has its row, with default and
// range of the schema; and what has no name is asked of the functions that use it.
#include "halfsplit/base/schema.hpp"
#include "halfsplit/diagnosis/fault.hpp"
#include "halfsplit/diagnosis/meter.hpp"
#include "halfsplit/diagnosis/volts.hpp"
#include "halfsplit/electrics/assembly.hpp"
#include "halfsplit/electrics/conductor.hpp"
#include "halfsplit/harness/meter_profile.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"
#include "support/console_page.hpp"
#include "support/files_of_tests.hpp"

#include <cmath>
#include <map>
#include <regex>
#include <sstream>

namespace {

using namespace halfsplit;

struct Row {
    std::string figure, value, range, what, file, source;
};

std::string without(std::string text, const std::string& characters) {
    std::string result;
    for (const char c : text) {
        if (characters.find(c) == std::string::npos) result += c;
    }
    return result;
}

std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells;
    std::istringstream in(line.substr(1));
    for (std::string cell; std::getline(in, cell, '|');) {
        const auto from = cell.find_first_not_of(' ');
        const auto to = cell.find_last_not_of(' ');
        cells.push_back(from == std::string::npos ? "" : cell.substr(from, to - from + 1));
    }
    return cells;
}

// By figure, those with a name of their own in backticks; the others by their words.
std::map<std::string, Row> rows_of_page() {
    std::map<std::string, Row> rows;
    bool begun = false;
    for (const std::string& line :
         test::lines_of_text(test::read_file("docs/reference/assumed-figures.md"))) {
        if (line.rfind("|---", 0) == 0) begun = true;
        if (!begun || line.rfind("| ", 0) != 0 || line.rfind("| **", 0) == 0) continue;
        const std::vector<std::string> cells = cells_of(line);
        INFO(line);
        REQUIRE(cells.size() == 6);
        const Row row{cells[0], cells[1], cells[2], cells[3], without(cells[4], "`"), cells[5]};
        REQUIRE(rows.emplace(row.figure, row).second);
    }
    return rows;
}

bool has_name(const Row& row) {
    return row.figure.front() == '`';
}

std::string path_of(const Row& row) {
    return (row.file.find(".hpp") != std::string::npos ? "include/halfsplit/" : "src/") + row.file;
}

// "50,000" and "50'000" are one number each, "0.3, 2.5, 20" are three.
std::vector<std::string> list_of(const std::string& text) {
    static const std::regex thousands(R"([,'](?=\d{3}(?!\d)))");
    std::vector<std::string> items;
    std::istringstream in(std::regex_replace(text, thousands, ""));
    for (std::string item; std::getline(in, item, ',');) items.push_back(without(item, " \n;"));
    return items;
}

// What the source gives the name, or its list: `name = 3`, `name{1, 2}`, `{"name", 1, 2}`.
std::vector<std::string> in_source(const std::string& name, const std::string& text) {
    const std::regex given("(?:\\b" + name + R"re(\s*[={]|")re" + name + R"re(",)\s*([^;}]*))re");
    std::smatch match;
    return std::regex_search(text, match, given) ? list_of(match[1]) : std::vector<std::string>{};
}

double number(const std::string& text) {
    return std::stod(without(text, ","));
}

}  // namespace

TEST_CASE("every assumed figure has its source, and stands in the code as its row says") {
    const std::map<std::string, Row> rows = rows_of_page();
    REQUIRE(rows.size() > 100);
    std::size_t compared = 0;
    for (const auto& [figure, row] : rows) {
        INFO(figure << " = " << row.value << " in " << path_of(row));
        CHECK_FALSE(row.what.empty());
        CHECK_FALSE(row.source.empty());
        const std::string text = test::read_file(path_of(row));
        if (!has_name(row)) continue;
        const std::vector<std::string> shown = list_of(row.value);
        const std::vector<std::string> found = in_source(without(figure, "`"), text);
        REQUIRE(found.size() >= shown.size());
        for (std::size_t i = 0; i < shown.size(); ++i) {
            INFO("shown " << shown[i] << ", found " << found[i]);
            const auto other = rows.find("`" + found[i] + "`");  // a figure given by another one's name
            CHECK(number(other == rows.end() ? found[i] : other->second.value) == number(shown[i]));
            ++compared;
        }
    }
    CHECK(compared > 100);
}

TEST_CASE("every assumption that a harness file can state is listed with its default and its range") {
    const auto schema = nlohmann::json::parse(schema_text("harness"));
    const auto& members = schema["definitions"]["assumptions"]["properties"];
    std::map<std::string, Row> with_range;
    for (const auto& [figure, row] : rows_of_page()) {
        if (!row.range.empty()) with_range.emplace(without(figure, "`"), row);
    }
    REQUIRE(with_range.size() == members.size());
    for (const auto& [name, member] : members.items()) {
        INFO(name);
        REQUIRE(with_range.count(name) == 1);
        const Row& row = with_range.at(name);
        CHECK(number(row.value) == member["default"].get<double>());
        const auto to = row.range.find(" to ");
        REQUIRE(to != std::string::npos);
        CHECK(number(row.range.substr(0, to)) == member["minimum"].get<double>());
        CHECK(number(row.range.substr(to + 4)) == member["maximum"].get<double>());
    }
}

TEST_CASE("no figure of the circuit or of distances is missing from the list") {
    static const std::regex member(R"re((\w+) = [\d])re");
    const std::map<std::string, Row> rows = rows_of_page();
    for (const auto& [file, name] : {std::pair<std::string, std::string>{"electrics/assembly.hpp", "Figures"},
                                     {"electrics/stretch.hpp", "DistanceTolerance"}}) {
        const std::string text = test::read_file("include/halfsplit/" + file);
        const std::size_t from = text.find("struct " + name + " {");
        REQUIRE(from != std::string::npos);
        const std::string body = text.substr(from, text.find("};", from) - from);
        std::size_t members = 0;
        for (std::sregex_iterator match(body.begin(), body.end(), member), end; match != end; ++match) {
            INFO(file << ": " << (*match)[1]);
            CHECK(rows.count("`" + (*match)[1].str() + "`") == 1);
            ++members;
        }
        CHECK(members > 6);
    }
}

TEST_CASE("assumed figures without a name are those that the functions go by") {
    const std::map<std::string, Row> rows = rows_of_page();
    const auto value = [&](const std::string& figure) { return rows.at(figure).value; };

    CHECK(value("ohms told apart") == "4 ohm and 35 %");
    CHECK_FALSE(diagnosis::distinguishable(1, 4.9));
    CHECK(diagnosis::distinguishable(1, 5.1));
    CHECK_FALSE(diagnosis::distinguishable(100, 134));
    CHECK(diagnosis::distinguishable(100, 136));
    CHECK(value("volts told apart") == "0.3 V and 20 %");
    CHECK_FALSE(diagnosis::distinguishable_volts(0, 0.29));
    CHECK(diagnosis::distinguishable_volts(0, 0.31));
    CHECK_FALSE(diagnosis::distinguishable_volts(10, 12.4));
    CHECK(diagnosis::distinguishable_volts(10, 12.6));

    const auto percent = [](diagnosis::Mode mode) {
        return std::to_string(std::lround(100 * diagnosis::ohm_spread(mode))) + " %";
    };
    CHECK(value("joint off its figure") == percent(diagnosis::Mode::BadJoint));
    CHECK(value("short off its figure") == percent(diagnosis::Mode::ShortLines));
    CHECK(value("short to ground off its figure") == percent(diagnosis::Mode::ShortGround));

    CHECK(value("wire gauge") == "0.127 x 92^((36 - n) / 39)");
    const double diameter = 0.127 * std::pow(92, (36 - 20) / 39.0);
    CHECK(electrics::awg_section_mm2(20) == Approx(std::acos(-1) * diameter * diameter / 4));

    for (const harness::MeterProfile& meter : harness::meter_profiles()) {
        if (meter.name == "plain") continue;  // the default of each meter_... and buzzer_...
        INFO(meter.name);
        const std::vector<double> figures{meter.percent,        meter.digits,    meter.counts,
                                          meter.lead_ohm,       meter.limit_ohm, meter.buzzer_low_ohm,
                                          meter.buzzer_high_ohm};
        const std::vector<std::string> shown = list_of(value("`" + meter.name + "`"));
        REQUIRE(shown.size() == figures.size());
        for (std::size_t i = 0; i < figures.size(); ++i) CHECK(number(shown[i]) == figures[i]);
    }
}
