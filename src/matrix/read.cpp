#include "halfsplit/base/json_text.hpp"
#include "halfsplit/matrix/matrix.hpp"

#include <nlohmann/json.hpp>

#include "base/file_failure.hpp"
#include "base/schema_findings.hpp"
#include "matrix/reading.hpp"

#include <algorithm>
#include <unordered_map>
#include <utility>

namespace halfsplit::matrix {

namespace {

access::Site read_site(const Member& member, Reading& reading) {
    return {read_number(member["place"], reading.places, "place", reading),
            read_covers(member["covers"], reading), member.number("minutes", 0)};
}

void read_priors(const Member& list, Reading& reading) {
    double sum = 0;
    for (const Member& entry : list.entries()) {
        auto& hypotheses = reading.matrix.problem.hypotheses;
        hypotheses.push_back({entry.number(0), hypotheses.size()});
        sum += hypotheses.back().probability;
    }
    if (reading.findings.errors() || sum > 0) return;
    reading.findings.error("no-weight", list.pointer(),
                           {"every prior is 0", "a prior above 0 for what can be true at all", "",
                            "write 1 for each where nothing is known of their chances"});
}

// Outcomes are told apart by how they are written; the planner's run from 0 in order of first use.
void read_outcomes(const Member& list, Reading& reading) {
    plan::Test& test = reading.matrix.problem.tests.back();
    std::vector<std::string>& names = reading.matrix.outcomes.emplace_back();
    std::unordered_map<std::string, int> number;
    check_length(list, reading.matrix.problem.hypotheses.size(), "outcome", "one for each prior", reading);
    for (const Member& entry : list.entries()) {
        const auto [known, fresh] = number.emplace(entry.whole_number(), static_cast<int>(names.size()));
        if (fresh) names.push_back(known->first);
        test.outcome.push_back(static_cast<std::uint8_t>(known->second));
    }
    if (names.size() <= static_cast<std::size_t>(plan::most_outcomes)) return;
    reading.findings.error("too-many-outcomes", list.pointer(),
                           {std::to_string(names.size()) + " different outcomes of one test",
                            "at most " + std::to_string(plan::most_outcomes), "",
                            "let outcomes that a person would not tell apart be one"});
}

void read_tests(const Member& list, Reading& reading) {
    std::unordered_map<std::string, std::string> first;  // by name: the pointer of who has it
    for (const Member& entry : list.entries()) {
        const std::string name = entry.text("name", "t" + std::to_string(reading.matrix.tests.size() + 1));
        const Member where = entry.has("name") ? entry["name"] : entry;
        const auto [known, fresh] = first.emplace(name, where.pointer());
        if (!fresh)
            reading.findings.error("duplicate-id", where.pointer(),
                                   {"two tests are named \"" + name + '"', "a name of its own for each test",
                                    "", "rename one", known->second});
        reading.matrix.tests.push_back(name);
        reading.matrix.problem.tests.push_back({read_site(entry, reading), {}, 0, 0});
        read_outcomes(entry["outcomes"], reading);
    }
}

void read_bare(const Member& list, Reading& reading) {
    check_length(list, reading.matrix.problem.hypotheses.size(), "part", "one for each prior", reading);
    for (const Member& entry : list.entries())
        reading.matrix.problem.bare.push_back(read_site(entry, reading));
}

void read_all(const nlohmann::json& document, Reading& reading) {
    const Member file(&document, "");
    read_priors(file["priors"], reading);
    read_workshop(file, reading);
    read_tests(file["tests"], reading);
    read_bare(file["bare"], reading);
    if (reading.findings.errors()) return;
    reading.matrix.problem.workshop =
        access::Workshop(reading.covers, reading.places, std::move(reading.travel));
}

// Its members would all be wrong, and none of that would help.
bool is_harness(const nlohmann::json& document) {
    return Member(&document, "").text("format") == "halfsplit-harness";
}

void say_harness(Reading& reading) {
    reading.findings.error(
        "not-a-matrix", "/format",
        {"this is a harness file", "a matrix of faults against tests", "", "survey it without --matrix"});
}

// Where nobody gets to: without minutes for the way, or for the cover. The schema would only ask for numbers.
void say_unreachable(const nlohmann::json& document, Reading& reading) {
    const auto say = [&](const Member& minutes, const std::string& what, const std::string& there) {
        if (!minutes.is_null()) return;
        reading.findings.error(
            "unreachable", minutes.pointer(),
            {"null for " + what, "minutes", "",
             "leave out the tests " + there + "; where a part cannot be laid bare, leave out `bare`"});
    };
    const Member file(&document, "");
    for (const Member& row : file["travel"].entries())
        for (const Member& minutes : row.entries()) say(minutes, "a way that nobody can go", "there");
    for (const Member& cover : file["covers"].entries())
        for (const char* name : {"off", "on"})
            say(cover[name], "a cover that does not come off, or on again", "under it");
}

}  // namespace

ReadResult read_matrix(std::string_view text, const std::string& file_name) {
    ReadResult result;
    try {
        const nlohmann::json document = parse_json(text, file_name);
        Reading reading;
        if (is_harness(document)) {
            say_harness(reading);
        } else if (say_unreachable(document, reading); !reading.findings.errors()) {
            check_schema(document, "matrix", "docs/reference/matrix.md", reading.findings);
            read_all(document, reading);
        }
        result.findings = reading.findings.placed(JsonOrigins(text, file_name));
        if (!reading.findings.errors()) result.matrix = std::move(reading.matrix);
    } catch (const InputError& error) {
        result.findings = error.findings();
    }
    return result;
}

ReadResult read_matrix_file(Files& files, const std::string& path) {
    try {
        return read_matrix(files.read(path, largest_file), path);
    } catch (const FileError& error) {
        return {std::nullopt, {about_failure(error, files, path, "matrix", largest_file)}};
    }
}

}  // namespace halfsplit::matrix
