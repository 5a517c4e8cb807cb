#include "cli/fleet/check_input.hpp"

#include "halfsplit/base/digest.hpp"
#include "halfsplit/base/json_text.hpp"
#include "halfsplit/base/origins.hpp"
#include "halfsplit/harness/read.hpp"

#include <nlohmann/json.hpp>

#include "base/collector.hpp"
#include "base/file_failure.hpp"
#include "cli/fleet/fixes.hpp"
#include "cli/fleet/unseen.hpp"
#include "harness/assembled.hpp"
#include "harness/notes.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

namespace halfsplit::cli {

namespace {

constexpr std::size_t fingerprint_digits = 16;

// What is said without the line of another place in it: that line moves.
std::string unmoved(const Finding& finding) {
    const std::size_t see = finding.message.rfind(" (see ");
    return finding.id + '\n' + finding.message.substr(0, see);
}

// Two findings that say the same are told apart by their order.
std::vector<std::string> fingerprints(const std::vector<Finding>& findings) {
    std::map<std::string, std::size_t> seen;
    std::vector<std::string> result;
    for (const Finding& finding : findings) {
        const std::string said = unmoved(finding);
        result.push_back(sha256(said + '\n' + std::to_string(++seen[said])).substr(0, fingerprint_digits));
    }
    return result;
}

std::vector<Finding> notes_of(const harness::Harness& harness, const Origins& origins) {
    Collector findings;
    harness::note_meaning(harness, findings);
    note_unseen(harness, findings);
    return findings.placed(origins);
}

// By line; findings of included files, which have lines of their own, stay behind.
void merge_by_place(std::vector<Finding>& findings, std::vector<Finding> more, const std::string& name) {
    findings.insert(findings.end(), std::make_move_iterator(more.begin()),
                    std::make_move_iterator(more.end()));
    std::stable_sort(findings.begin(), findings.end(), [&](const Finding& a, const Finding& b) {
        const auto key = [&](const Finding& finding) {
            return std::tuple(finding.location.file != name, finding.location.line, finding.location.column);
        };
        return key(a) < key(b);
    });
}

bool about_the_file(const Finding& finding) {
    return finding.id.rfind("file-", 0) == 0;
}

void add_places_of_mend(report::CheckedFinding& one, const std::string& text, const Lines& lines) {
    const auto edit = edit_of(one.finding, text, lines);
    if (!edit) return;
    one.mended_from = lines.place_of(edit->offset, one.finding.location.file);
    one.mended_to = lines.place_of(edit->offset + edit->length, one.finding.location.file);
    one.mended_text = edit->text;
}

class Check {
  public:
    Check(Files& files, const Input& input, const Checking& checking)
        : files_(files), input_(input), checking_(checking), name_(shown_name(input.path)) {
        result_.file.file = name_;
    }

    CheckedInput run() {
        if (input_.trouble) {
            result_.file.readable = false;
            show({*input_.trouble});
            return std::move(result_);
        }
        std::string text;
        try {
            text = read_input(files_, input_.path, harness::largest_file);
        } catch (const FileError& error) {
            result_.file.readable = false;
            show({about_failure(error, files_, name_, "harness", harness::largest_file)});
            return std::move(result_);
        }
        check(text);
        return std::move(result_);
    }

  private:
    void check(std::string& text) {
        auto read = harness::read_harness_text(files_, text, name_, nullptr, checking_.include);
        const auto other = std::find_if(read.findings.begin(), read.findings.end(),
                                        [](const Finding& finding) { return finding.id == "other-format"; });
        if (other != read.findings.end() && input_.folder != no_folder) {
            result_.file.passed_over = true;
            return;
        }
        result_.file.readable = std::none_of(read.findings.begin(), read.findings.end(), about_the_file);
        if (checking_.fixes) result_.edits = safe_edits(read.findings, text, again());
        if (read.harness) {
            describe(*read.harness);
            if (checking_.notes)
                merge_by_place(
                    read.findings,
                    notes_of(*read.harness, harness::Assembled(text, name_, &files_, checking_.include)),
                    name_);
        }
        show(std::move(read.findings));
        add_mends(text);
        if (!result_.edits.empty()) result_.text = std::move(text);
    }

    // Reads a changed text as the file itself was read.
    ReadAgain again() {
        return {
            name_, [this](const std::string& text) {
                return harness::read_harness_text(files_, text, name_, nullptr, checking_.include).findings;
            }};
    }

    void describe(const harness::Harness& harness) {
        result_.file.sound = true;
        result_.file.networks = harness.networks.size();
        result_.file.parts = harness.parts.size();
        result_.file.points = harness.points.size();
    }

    // With the severities that were asked for. What cannot be read stays an error.
    void show(std::vector<Finding> findings) {
        const std::vector<std::string> prints = fingerprints(findings);
        for (std::size_t i = 0; i < findings.size(); ++i) {
            if (result_.file.readable) {
                const auto severity = checking_.severities.of(findings[i]);
                if (!severity) {
                    ++result_.file.switched_off;
                    continue;
                }
                findings[i].severity = *severity;
                if (*severity == Severity::Note && !checking_.notes) continue;
            }
            report::CheckedFinding one;
            one.finding = std::move(findings[i]);
            one.fingerprint = prints[i];
            result_.file.findings.push_back(std::move(one));
        }
    }

    void add_mends(const std::string& text) {
        const auto can_be_mended = [&](const report::CheckedFinding& one) {
            return one.finding.mend.kind != Mend::Kind::None && one.finding.location.file == name_;
        };
        auto& findings = result_.file.findings;
        if (std::none_of(findings.begin(), findings.end(), can_be_mended)) return;
        const Lines lines(text);
        for (report::CheckedFinding& one : findings) {
            if (can_be_mended(one)) add_places_of_mend(one, text, lines);
        }
    }

    Files& files_;
    const Input& input_;
    const Checking& checking_;
    std::string name_;
    CheckedInput result_;
};

}  // namespace

CheckedInput check_input(Files& files, const Input& input, const Checking& checking) {
    return Check(files, input, checking).run();
}

}  // namespace halfsplit::cli
