#include "halfsplit/harness/read.hpp"

#include <nlohmann/json.hpp>

#include "base/collector.hpp"
#include "base/file_failure.hpp"
#include "base/schema_findings.hpp"
#include "harness/assembled.hpp"
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
    check_schema(document, "harness", "docs/reference/harness-format.md", reading.findings);
    read_all(document, reading);
    check_all(reading);
    result.findings = reading.findings.placed(origins);
    if (!reading.findings.errors()) result.harness = std::move(reading.harness);
    return result;
}

namespace {

ReadResult read_assembled(std::string_view content, const std::string& name, Files* files, std::string* text,
                          const IncludeRules& rules) {
    try {
        const Assembled assembled(content, name, files, rules);
        if (text != nullptr)
            *text = assembled.includes_any() ? assembled.document().dump() : std::string(content);
        return read_document(assembled.document(), assembled);
    } catch (const InputError& error) {
        return {std::nullopt, error.findings()};
    }
}

}  // namespace

ReadResult read_harness(std::string_view text, const std::string& file_name) {
    return read_assembled(text, file_name, nullptr, nullptr, {});
}

ReadResult read_harness_text(Files& files, std::string_view content, const std::string& path,
                             std::string* text, const IncludeRules& rules) {
    return read_assembled(content, path, &files, text, rules);
}

ReadResult read_harness_file(Files& files, const std::string& path, std::string* text,
                             const IncludeRules& rules) {
    try {
        return read_harness_text(files, files.read(path, largest_file), path, text, rules);
    } catch (const FileError& error) {
        return {std::nullopt, {about_failure(error, files, path, "harness", largest_file)}};
    }
}

}  // namespace halfsplit::harness
