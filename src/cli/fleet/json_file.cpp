#include "cli/fleet/json_file.hpp"

#include "halfsplit/base/json_text.hpp"
#include "halfsplit/base/origins.hpp"

#include <nlohmann/json.hpp>

#include "base/collector.hpp"
#include "base/file_failure.hpp"
#include "base/schema_findings.hpp"

namespace halfsplit::cli {

namespace {

constexpr std::uint64_t largest = 64ULL << 20U;

}  // namespace

nlohmann::json read_json_file(Files& files, const std::string& path, const std::string& schema,
                              const std::string& kind) {
    std::string text;
    try {
        text = files.read(path, largest);
    } catch (const FileError& error) {
        throw InputError(about_failure(error, files, path, kind, largest));
    }
    nlohmann::json document = parse_json(text, path);
    Collector findings;
    check_schema(document, schema, "docs/reference/check.md", findings);
    if (findings.errors()) throw InputError(findings.placed(JsonOrigins(text, path)));
    return document;
}

}  // namespace halfsplit::cli
