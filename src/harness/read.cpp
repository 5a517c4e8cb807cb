#include "halfsplit/harness/read.hpp"

#include "halfsplit/base/json_text.hpp"
#include "halfsplit/base/schema.hpp"

#include <nlohmann/json.hpp>

#include "harness/collector.hpp"
#include "harness/reading.hpp"

#include <utility>

namespace halfsplit::harness {

namespace {

std::string what_to_do(const SchemaViolation& violation) {
    if (violation.id == "unknown-member")
        return violation.nearest.empty() ? "delete it; remarks belong into \"note\"" : "correct the name";
    if (violation.id == "missing-member") return "add it; docs/harness-format.md shows where";
    if (violation.id == "not-a-choice") return "write one of the choices, in quotes where they have them";
    if (violation.id == "wrong-type") return "write it as expected; numbers stand without quotes";
    return "correct it, or leave it out where a default will do";
}

void check_schema(const nlohmann::json& document, Reading& reading) {
    for (SchemaViolation& violation : validate(document, "harness")) {
        const bool name = violation.id == "unknown-member";
        std::string next = what_to_do(violation);
        reading.findings.add(violation.id, Severity::Error, {violation.pointer, name},
                             {std::move(violation.message), std::move(violation.expected),
                              std::move(violation.nearest), std::move(next)});
    }
}

void read_all(const nlohmann::json& document, Reading& reading) {
    const Member file(&document, "");
    read_surroundings(file, reading);
    read_assumptions(file["assumptions"], reading);
    read_parts(file, reading);
    read_attachments(reading);
    read_plugs(reading);
    read_runs(reading);
    make_points(reading, file);
}

void check_all(Reading& reading) {
    check_covers(reading);
    check_connectors(reading);
    check_wholeness(reading);
    check_bus_rules(reading);
}

Finding about_file(const std::string& id, const std::string& path, std::string message, std::string next) {
    Finding finding;
    finding.id = id;
    finding.location.file = path;
    finding.message = std::move(message);
    finding.next_step = std::move(next);
    return finding;
}

Finding about_failure(const FileError& error, const std::string& path) {
    switch (error.kind()) {
        case FileError::Kind::Missing:
            return about_file("file-missing", path, "there is no such file", "check the path");
        case FileError::Kind::IsFolder:
            return about_file("file-is-folder", path, "this is a folder", "name the harness file in it");
        case FileError::Kind::TooLarge:
            return about_file("file-too-large", path,
                              "the file is larger than " + std::to_string(largest_file >> 20U) + " MB",
                              "check that it is a harness file");
        default:
            return about_file("file-unreadable", path, error.what(), "check who may read it");
    }
}

}  // namespace

ReadResult read_harness(std::string_view text, const std::string& file_name) {
    ReadResult result;
    try {
        const nlohmann::json document = parse_json(text, file_name);
        Reading reading;
        check_schema(document, reading);
        read_all(document, reading);
        check_all(reading);
        result.findings = reading.findings.placed(text, file_name);
        if (!reading.findings.errors()) result.harness = std::move(reading.harness);
    } catch (const InputError& error) {
        result.findings = error.findings();
    }
    return result;
}

ReadResult read_harness_file(Files& files, const std::string& path, std::string* text) {
    try {
        const std::string content = files.read(path, largest_file);
        if (text != nullptr) *text = content;
        return read_harness(content, path);
    } catch (const FileError& error) {
        return {std::nullopt, {about_failure(error, path)}};
    }
}

}  // namespace halfsplit::harness
