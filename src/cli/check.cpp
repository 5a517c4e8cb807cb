#include "halfsplit/report/check_report.hpp"
#include "halfsplit/report/explanation.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/parallel.hpp"
#include "cli/commands.hpp"
#include "cli/fleet/baseline.hpp"
#include "cli/fleet/check_input.hpp"
#include "cli/put_json.hpp"

#include <algorithm>
#include <memory>
#include <ostream>
#include <utility>

namespace halfsplit::cli {

namespace {

struct CheckOptions {
    std::vector<std::string> paths, lists, severities;
    std::string format = "text", settings, baseline, write_baseline, explain;
    std::size_t threads = 0;
    bool json = false, notes = false, fix = false, dry_run = false;
};

// What all inputs came to, in their order, and a finding more for each folder without a harness.
std::vector<CheckedInput> check_all(const Gathered& gathered, const Checking& checking,
                                    const CheckOptions& options, Context& context) {
    std::vector<CheckedInput> checked(gathered.inputs.size());
    for_each_index(checked.size(), options.threads, [&](std::size_t index) {
        checked[index] = check_input(context.files, gathered.inputs[index], checking);
    });
    for (std::size_t folder = 0; folder < gathered.folders.size(); ++folder) {
        bool any = false, harness = false;
        for (std::size_t index = 0; index < checked.size(); ++index) {
            const bool here = gathered.inputs[index].folder == folder;
            any = any || here;
            harness = harness || (here && !checked[index].file.passed_over);
        }
        if (!any || harness) continue;
        const std::string& path = gathered.folders[folder];
        checked.push_back(check_input(context.files, {path, folder, nothing_there(path)}, checking));
    }
    return checked;
}

int exit_code(const report::CheckedSet& set) {
    const auto fails = [](const report::CheckedFinding& one) {
        return !one.known && one.finding.severity != Severity::Note;
    };
    int code = Exit::fine;
    for (const report::CheckedFile& file : set.files) {
        if (!file.readable) return Exit::unusable;
        if (std::any_of(file.findings.begin(), file.findings.end(), fails)) code = Exit::findings;
    }
    return code;
}

// The changes, made or shown. Files that cannot be written are told; the others are.
int fix_all(const std::vector<CheckedInput>& checked, const CheckOptions& options, Context& context) {
    std::size_t changes = 0, files = 0;
    int code = Exit::fine;
    for (const CheckedInput& one : checked) {
        if (one.edits.empty()) continue;
        const std::string& path = one.file.file;
        try {
            const std::string difference = unified_difference(path, one.text, one.edits);
            if (!options.dry_run) context.files.write(path, edited(one.text, one.edits));
            context.out << difference;
            changes += one.edits.size();
            ++files;
        } catch (const FileError& error) {
            context.err << "halfsplit: " << error.what() << '\n';
            code = Exit::unusable;
        }
    }
    context.err << fmt::format("{} {} in {} of {} files{}\n", changes, changes == 1 ? "change" : "changes",
                               files, checked.size(), options.dry_run ? ", not made" : "");
    return code;
}

int explain(const CheckOptions& options, Context& context) {
    for (const report::Explanation& one : report::explanations()) {
        if (one.id != options.explain) continue;
        context.out << report::explanation_text(one, context.terminal.columns());
        return Exit::fine;
    }
    throw InputError(report::unknown_id(options.explain));
}

void show(const report::CheckedSet& set, const std::string& format, Context& context) {
    if (format == "text") {
        context.out << report::check_text(set);
    } else {
        const auto document =
            format == "json" ? report::check_json(set) : report::check_sarif(set, HALFSPLIT_VERSION);
        put_json(context.out, document);
    }
}

int check(const CheckOptions& options, Context& context) {
    const Checking checking{options.notes, options.fix,
                            Severities::read(context.files, options.settings, options.severities),
                            context.include};
    const Gathered gathered = gather(context.files, options.paths, options.lists);
    std::vector<CheckedInput> checked = check_all(gathered, checking, options, context);
    if (options.fix) return fix_all(checked, options, context);
    report::CheckedSet set;
    for (CheckedInput& one : checked) set.files.push_back(std::move(one.file));
    if (!options.baseline.empty()) hold_against_baseline(context.files, options.baseline, set);
    if (!options.write_baseline.empty()) {
        write_baseline(context.files, options.write_baseline, set);
        for (report::CheckedFile& file : set.files) {
            for (report::CheckedFinding& one : file.findings) one.known = file.readable;
        }
        set.baseline = true;
    }
    show(set, options.json ? "json" : options.format, context);
    return exit_code(set);
}

// Said here and not to the parser, whose help would list what excludes what in no order.
void check_together(const CheckOptions& options) {
    if (!options.explain.empty()) return;
    if (options.paths.empty() && options.lists.empty()) throw CLI::RequiredError("FILE");
    if (options.dry_run && !options.fix) throw CLI::RequiresError("--dry-run", "--fix");
    if (options.fix && !options.baseline.empty()) throw CLI::ExcludesError("--fix", "--baseline");
    const auto reads = [](const std::vector<std::string>& all) {
        return std::count(all.begin(), all.end(), "-");
    };
    const auto inputs = reads(options.paths) + reads(options.lists);
    if (inputs > 1) throw CLI::ValidationError("-", "standard input can be read once");
    if (inputs > 0 && options.fix && !options.dry_run && reads(options.paths) > 0)
        throw CLI::ValidationError("--fix", "standard input cannot be written: add --dry-run");
}

}  // namespace

void add_check(CLI::App& program, Context& context, Chosen& chosen) {
    auto options = std::make_shared<CheckOptions>();
    CLI::App* command = program.add_subcommand("check", "is this harness file sound?");
    command->add_option("FILE", options->paths, "files, folders, patterns; - is standard input")
        ->type_name(".json");
    command->add_option("--list", options->lists, "a file of paths, one a line (- too)")
        ->type_name("FILE")
        ->allow_extra_args(false);
    command->add_option("-j", options->threads, "threads (default: as many as run at once)")
        ->check(CLI::Range(1, 256));
    command->add_option("--format", options->format, "text by default")
        ->check(CLI::IsMember({"text", "json", "sarif"}));
    command->add_flag("--json", options->json, "the same as --format json");
    command->add_flag("--notes", options->notes, "also what is no mistake and worth knowing");
    command->add_option("--severity", options->severities, "ID=error, warning, note or off")
        ->allow_extra_args(false);
    command->add_option("--settings", options->settings, "a file of severities (docs/reference/check.md)")
        ->type_name("FILE.json");
    command->add_option("--baseline", options->baseline, "only findings not in it fail")
        ->type_name("FILE.json");
    command->add_option("--write-baseline", options->write_baseline, "take what is found as known")
        ->type_name("FILE.json");
    command->add_option("--explain", options->explain, "what a finding means, and how to mend it")
        ->type_name("ID");
    command->add_flag("--fix", options->fix, "make the changes that are safe");
    command->add_flag("--dry-run", options->dry_run, "with --fix: show them as a diff");
    command->footer(
        "Exit code: 0 sound, 1 findings (warnings count), 2 what could not be read.\n"
        "Examples:\n  halfsplit check fleet --baseline known.json -j 2\n"
        "  halfsplit check --explain terminator-count");
    command->callback([options, &context, &chosen] {
        check_together(*options);
        chosen = [options, &context] {
            return options->explain.empty() ? check(*options, context) : explain(*options, context);
        };
    });
}

}  // namespace halfsplit::cli
