#include "halfsplit/harness/read.hpp"

#include "halfsplit/base/json_text.hpp"

#include <nlohmann/json.hpp>

#include "base/collector.hpp"
#include "base/file_failure.hpp"
#include "base/schema_findings.hpp"
#include "harness/other_format.hpp"
#include "harness/reading.hpp"

#include <utility>

namespace halfsplit::harness {

namespace {

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

}  // namespace

ReadResult read_document(const nlohmann::json& document, const Origins& origins) {
    ReadResult result;
    Reading reading;
    if (is_of_other_format(document, reading.findings)) {
        result.findings = reading.findings.placed(origins);
        return result;
    }
    check_schema(document, "harness", "docs/harness-format.md", reading.findings);
    read_all(document, reading);
    check_all(reading);
    result.findings = reading.findings.placed(origins);
    if (!reading.findings.errors()) result.harness = std::move(reading.harness);
    return result;
}

ReadResult read_harness(std::string_view text, const std::string& file_name) {
    ReadResult result;
    try {
        return read_document(parse_json(text, file_name), JsonOrigins(text, file_name));
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
        return {std::nullopt, {about_failure(error, path, "harness", largest_file)}};
    }
}

}  // namespace halfsplit::harness
