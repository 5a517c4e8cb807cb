#include "halfsplit/harness/read.hpp"
#include "halfsplit/report/check_report.hpp"

#include <nlohmann/json.hpp>

#include "cli/commands.hpp"

#include <algorithm>
#include <memory>
#include <ostream>

namespace halfsplit::cli {

namespace {

struct CheckOptions {
    std::vector<std::string> files;
    bool json = false;
};

report::CheckedFile check_one(const std::string& path, Context& context) {
    report::CheckedFile result{.file = path, .findings = {}};
    auto read = harness::read_harness_file(context.files, path, nullptr, context.include);
    result.readable = std::none_of(read.findings.begin(), read.findings.end(),
                                   [](const Finding& finding) { return finding.id.rfind("file-", 0) == 0; });
    result.findings = std::move(read.findings);
    if (read.harness) {
        result.networks = read.harness->networks.size();
        result.parts = read.harness->parts.size();
        result.points = read.harness->points.size();
    }
    return result;
}

int check(const CheckOptions& options, Context& context) {
    std::vector<report::CheckedFile> files;
    for (const std::string& path : options.files) files.push_back(check_one(path, context));
    if (options.json) {
        context.out << report::check_json(files).dump(2) << '\n';
    } else {
        context.out << report::check_text(files);
    }
    const auto any = [&](auto of) { return std::any_of(files.begin(), files.end(), of); };
    if (any([](const report::CheckedFile& file) { return !file.readable; })) return Exit::unusable;
    return any([](const report::CheckedFile& file) { return !file.findings.empty(); }) ? Exit::findings
                                                                                       : Exit::fine;
}

}  // namespace

void add_check(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<CheckOptions>();
    CLI::App* command = program.add_subcommand("check", "is this harness file sound?");
    command->add_option("FILE", options->files, "harness files (JSON)")->required();
    command->add_flag("--json", options->json, "findings as data (schema: docs/schema/check.schema.json)");
    command->footer(
        "Exit code: 0 all sound, 1 findings (warnings count), 2 a file that could not be read at all.\n"
        "Examples:\n  halfsplit check minibus.json\n  halfsplit check --json fleet/*.json");
    command->callback(
        [options, &context, &chosen] { chosen = [options, &context] { return check(*options, context); }; });
}

}  // namespace halfsplit::cli
