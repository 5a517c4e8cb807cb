#include "base/collector.hpp"

#include <algorithm>
#include <string_view>
#include <tuple>
#include <utility>

namespace halfsplit {

namespace {

// By file, the document's own first, then by line and column.
class Before {
  public:
    explicit Before(const std::string& own) : own_(own) {}
    bool operator()(const Finding& a, const Finding& b) const { return key(a) < key(b); }

  private:
    std::tuple<bool, std::string_view, std::size_t, std::size_t> key(const Finding& finding) const {
        const Location& at = finding.location;
        return {at.file != own_, at.file, at.line, at.column};
    }
    const std::string& own_;
};

std::string see(const Location& first, const Location& here) {
    const std::string line = std::to_string(first.line);
    return first.file == here.file ? " (see line " + line + ')' : " (see " + first.file + ':' + line + ')';
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
    finding.mend = std::move(said.mend);
    waiting_.push_back({std::move(finding), std::move(spot), std::move(said.first)});
}

std::vector<Finding> Collector::placed(const Origins& origins) const {
    std::vector<Finding> findings;
    if (waiting_.empty()) return findings;
    std::vector<Spot> spots;
    for (const Waiting& one : waiting_) {
        spots.push_back(one.spot);
        spots.push_back({one.first, false});
    }
    const std::vector<Location> places = origins.locate(spots);
    for (std::size_t i = 0; i < waiting_.size(); ++i) {
        Finding finding = waiting_[i].finding;
        finding.location = places[2 * i];
        if (!waiting_[i].first.empty()) {
            finding.message += see(places[2 * i + 1], finding.location);
        }
        findings.push_back(std::move(finding));
    }
    std::stable_sort(findings.begin(), findings.end(), Before(origins.file_name()));
    if (left_out_ > 0) {
        Finding rest;
        rest.id = "too-many-findings";
        rest.severity = Severity::Warning;
        rest.location.file = origins.file_name();
        rest.message = std::to_string(left_out_) + " more findings are not shown";
        rest.next_step = "mend those above and check again";
        findings.push_back(std::move(rest));
    }
    origins.quote(findings);
    return findings;
}

}  // namespace halfsplit
