#include "base/collector.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace halfsplit {

namespace {

bool before(const Finding& a, const Finding& b) {
    return std::tie(a.location.line, a.location.column) < std::tie(b.location.line, b.location.column);
}

}  // namespace

void Collector::add(std::string id, Severity severity, Spot spot, Said said) {
    errors_ = errors_ || severity == Severity::Error;
    if (waiting_.size() == most_findings) {
        ++left_out_;
        return;
    }
    Finding finding;
    finding.id = std::move(id);
    finding.severity = severity;
    finding.message = std::move(said.message);
    finding.expected = std::move(said.expected);
    finding.nearest = std::move(said.nearest);
    finding.next_step = std::move(said.next);
    waiting_.push_back({std::move(finding), std::move(spot), std::move(said.first)});
}

std::vector<Finding> Collector::placed(std::string_view text, const std::string& file_name) const {
    std::vector<Finding> findings;
    if (waiting_.empty()) return findings;
    std::vector<Spot> spots;
    for (const Waiting& one : waiting_) {
        spots.push_back(one.spot);
        spots.push_back({one.first, false});
    }
    const std::vector<Location> places = locate(text, spots, file_name);
    for (std::size_t i = 0; i < waiting_.size(); ++i) {
        Finding finding = waiting_[i].finding;
        finding.location = places[2 * i];
        if (!waiting_[i].first.empty()) {
            finding.message += " (see line " + std::to_string(places[2 * i + 1].line) + ')';
        }
        findings.push_back(std::move(finding));
    }
    std::stable_sort(findings.begin(), findings.end(), before);
    if (left_out_ > 0) {
        Finding rest;
        rest.id = "too-many-findings";
        rest.severity = Severity::Warning;
        rest.location.file = file_name;
        rest.message = std::to_string(left_out_) + " more findings are not shown";
        rest.next_step = "mend those above and check again";
        findings.push_back(std::move(rest));
    }
    quote_lines(findings, text);
    return findings;
}

}  // namespace halfsplit
