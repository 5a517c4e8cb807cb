#include "halfsplit/report/check_report.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/json_out.hpp"
#include "report/finding_json.hpp"

namespace halfsplit::report {

using nlohmann::json;

namespace {

struct Count {
    std::size_t files = 0, errors = 0, warnings = 0, notes = 0, with_errors = 0, unreadable = 0,
                passed_over = 0, known = 0;
};

void count_findings(const CheckedFile& file, Count& total) {
    const std::size_t before = total.errors;
    for (const CheckedFinding& one : file.findings) {
        if (one.known) {
            ++total.known;
        } else if (one.finding.severity == Severity::Error) {
            ++total.errors;
        } else {
            ++(one.finding.severity == Severity::Warning ? total.warnings : total.notes);
        }
    }
    if (total.errors > before) ++total.with_errors;
}

Count count(const CheckedSet& set) {
    Count total;
    for (const CheckedFile& file : set.files) {
        ++(file.passed_over ? total.passed_over : total.files);
        if (!file.readable) ++total.unreadable;
        count_findings(file, total);
    }
    return total;
}

json to_json(const CheckedFinding& one) {
    json out = finding_json(one.finding);
    out["fingerprint"] = one.fingerprint;
    out["known"] = one.known;
    if (one.mended_from)
        out["fix"] = {{"line", one.mended_from->line},
                      {"column", one.mended_from->column},
                      {"end_line", one.mended_to->line},
                      {"end_column", one.mended_to->column},
                      {"text", one.mended_text}};
    return out;
}

json to_json(const CheckedFile& file) {
    return {{"file", file.file},
            {"readable", file.readable},
            {"sound", file.sound},
            {"networks", file.networks},
            {"parts", file.parts},
            {"points", file.points},
            {"findings", listed(file.findings, [](const CheckedFinding& one) { return to_json(one); })}};
}

std::string file_text(const CheckedFile& file) {
    std::string text;
    std::size_t known = 0;
    bool wrong = false;
    for (const CheckedFinding& one : file.findings) {
        if (one.known) {
            ++known;
            continue;
        }
        wrong = wrong || one.finding.severity != Severity::Note;
        text += to_text(one.finding) + "\n\n";
    }
    if (wrong || file.passed_over) return text;
    const std::string hidden = known > 0               ? " but for what the baseline knows"
                               : file.switched_off > 0 ? " but for what is switched off"
                                                       : "";
    text += printable(file.file);
    if (!file.sound)
        return text + (known > 0 ? ": nothing new" : ": nothing but what is switched off") +
               "; it cannot be used\n";
    return text + fmt::format(": sound{}: {}, {}, {}\n", hidden, counted(file.networks, "network"),
                              counted(file.parts, "part"), counted(file.points, "probe point"));
}

}  // namespace

std::string check_text(const CheckedSet& set) {
    std::string text;
    for (const CheckedFile& file : set.files) text += file_text(file);
    const Count total = count(set);
    text += fmt::format("{}, {} with errors: {}, {}", counted(total.files, "file"), total.with_errors,
                        counted(total.errors, "error"), counted(total.warnings, "warning"));
    if (total.notes > 0) text += ", " + counted(total.notes, "note");
    if (total.passed_over > 0) text += fmt::format("; {} passed over, no harness", total.passed_over);
    if (set.baseline) text += fmt::format("; of the baseline {} known, {} mended", total.known, set.mended);
    return text + '\n';
}

json check_json(const CheckedSet& set) {
    json list = json::array(), passed_over = json::array();
    for (const CheckedFile& file : set.files) {
        if (file.passed_over) {
            passed_over.push_back(file.file);
        } else {
            list.push_back(to_json(file));
        }
    }
    const Count total = count(set);
    return {{"files", std::move(list)},
            {"passed_over", std::move(passed_over)},
            {"summary",
             {{"files", total.files},
              {"with_errors", total.with_errors},
              {"unreadable", total.unreadable},
              {"errors", total.errors},
              {"warnings", total.warnings},
              {"notes", total.notes},
              {"known", total.known},
              {"mended", set.mended}}}};
}

}  // namespace halfsplit::report
