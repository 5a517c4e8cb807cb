#include "halfsplit/session/session.hpp"

#include "halfsplit/advice/granted.hpp"
#include "halfsplit/advice/recommendation_json.hpp"
#include "halfsplit/advice/safety.hpp"
#include "halfsplit/base/digest.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/job/implied.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace halfsplit::session {

using harness::Harness;
using harness::Index;
using harness::none;

struct Session::Work {
    Harness harness;
    std::string harness_text;
    std::string network, job_path;
    std::vector<harness::Difference> differences;  // that `harness` has already
    std::unique_ptr<job::Log> log;
    std::unique_ptr<advice::Advisor> advisor;
    std::optional<advice::Aim> aim;                // where one was named
    std::optional<advice::Recommendation> advice;  // of the state as it stands
};

namespace {

bool has_errors(const std::vector<Finding>& findings) {
    return std::any_of(findings.begin(), findings.end(),
                       [](const Finding& finding) { return finding.severity == Severity::Error; });
}

// The first record of a job, where it is one.
const job::Opened* opened(const std::vector<job::Record>& records) {
    return records.empty() ? nullptr : std::get_if<job::Opened>(&records.front().event.body);
}

// A job keeps the aim of the advice before.
advice::Aim last_aim(const std::vector<job::Record>& records) {
    for (auto record = records.rbegin(); record != records.rend(); ++record)
        if (const auto* advice = std::get_if<job::Recommended>(&record->event.body))
            return advice::from_text(advice->json).aim;
    return {};
}

Finding refusal(std::string id, std::string message, std::string next_step) {
    Finding finding;
    finding.id = std::move(id);
    finding.location.file = "input";
    finding.message = std::move(message);
    finding.next_step = std::move(next_step);
    return finding;
}

}  // namespace

Index chosen_network(const Harness& harness, const std::string& id, const std::string& file) {
    if (id.empty()) return 0;
    const Index network = find_network(harness, id);
    if (network != none) return network;
    std::vector<std::string> known;
    for (const auto& own : harness.networks) known.push_back(own.id);
    Finding finding;
    finding.id = "unknown-network";
    finding.location.file = file;
    finding.message = fmt::format("there is no network '{}' in this file", id);
    finding.expected = "one of " + join_words(known);
    finding.nearest = nearest_name(id, known);
    throw InputError(finding);
}

Session::Session(Files& files, Clock& clock, const Opening& opening) : work_(std::make_unique<Work>()) {
    work_->aim = opening.aim;
    load_harness(files, opening);
    open_log(files, clock, opening);
    const std::string network = opened(work_->log->records())->network;
    if (!opening.network.empty() && opening.network != network) {
        throw InputError(
            refusal("other-network", fmt::format("this job is on network '{}'", network),
                    fmt::format("leave --network out, or start a job of its own for '{}'", opening.network)));
    }
    work_->network = network;
    work_->job_path = opening.job_path;
    state_ = job::replay(work_->log->records());
    if (!state_.differences.empty()) take_differences();
    take_up();
}

// The job's own harness as the vehicle turned out to be.
Harness Session::harness_with(const std::vector<harness::Difference>& differences) const {
    auto read =
        harness::read_with_differences(work_->harness_text, work_->job_path + " (harness)", differences);
    if (!read.harness) throw InputError(read.findings);
    return std::move(*read.harness);
}

void Session::take_differences() {
    work_->harness = harness_with(harness::that_hold(work_->harness_text, state_.differences));
    work_->differences = state_.differences;
}

void Session::take_up() {
    work_->advisor = std::make_unique<advice::Advisor>(
        work_->harness, chosen_network(work_->harness, work_->network, work_->job_path));
}

Session::~Session() = default;

void Session::load_harness(Files& files, const Opening& opening) {
    auto read =
        harness::read_harness_file(files, opening.harness_path, &work_->harness_text, opening.include);
    if (!read.harness) throw InputError(read.findings);
    for (const Finding& finding : read.findings) notices_.push_back(to_text(finding));
    work_->harness = std::move(*read.harness);
}

void Session::open_log(Files& files, Clock& clock, const Opening& opening) {
    // A name that is wrong must not leave an empty job behind.
    if (!files.exists(opening.job_path))
        chosen_network(work_->harness, opening.network, opening.harness_path);
    work_->log = std::make_unique<job::Log>(files, clock, opening.job_path);
    job::Log& log = *work_->log;
    if (log.torn()) {
        notices_.push_back(fmt::format(
            "{}: the last {} bytes were a record cut short and never acknowledged; they were set aside in {}",
            opening.job_path, log.torn()->bytes, log.torn()->set_aside));
    }
    resumed_ = !log.records().empty();
    if (!resumed_) {
        const Index network = chosen_network(work_->harness, opening.network, opening.harness_path);
        log.append(
            job::Event{job::Opened{opening.harness_path, work_->harness_text, sha256(work_->harness_text),
                                   work_->harness.networks[network].id, HALFSPLIT_VERSION}});
        return;
    }
    const job::Opened* first = opened(log.records());
    if (first == nullptr) {
        throw InputError(refusal("not-a-job", opening.job_path + ": the first record does not open a job",
                                 "name another file with --job, or have this one looked at"));
    }
    if (first->harness_sha256 == sha256(work_->harness_text)) return;
    work_->harness_text = first->harness_text;
    auto own = harness::read_harness(first->harness_text, opening.job_path + " (harness)");
    if (!own.harness || has_errors(own.findings)) throw InputError(own.findings);
    work_->harness = std::move(*own.harness);
    notices_.push_back(fmt::format(
        "{} has changed since this job was opened: the job goes on with its own copy", opening.harness_path));
}

const Harness& Session::harness() const {
    return work_->harness;
}
Index Session::network() const {
    return work_->advisor->network();
}
const std::vector<job::Record>& Session::records() const {
    return work_->log->records();
}

void Session::refuse_impossible(const job::Event& event) const {
    const auto* reading = std::get_if<job::Reading>(&event.body);
    const bool ohms = reading != nullptr && reading->quantity == job::Quantity::Ohm &&
                      reading->outcome != job::Outcome::CouldNotReach;
    const bool distance = std::holds_alternative<job::Distance>(event.body);
    if ((ohms || distance) && !advice::safe_for_ohms(state_)) {
        throw InputError(
            refusal("live-bus",
                    fmt::format("{} not taken on a live bus, and the safe state has not been told",
                                distance ? "distances are" : "ohms are"),
                    "ignition off, bus asleep, battery off, the maker's waiting time over; "
                    "then: safe ignition=off bus=asleep "
                    "battery=off waited=10"));
    }
    if (state_.closed && !std::holds_alternative<job::Undo>(event.body) &&
        !std::holds_alternative<job::Remark>(event.body)) {
        throw InputError(refusal("job-closed", "this job is closed", "undo the closing first: undo"));
    }
    refuse_difference(event);
}

// What the vehicle is said to be has to make a sound harness.
void Session::refuse_difference(const job::Event& event) const {
    const auto* amend = std::get_if<job::Amend>(&event.body);
    const job::Event& meant = amend != nullptr && amend->event ? *amend->event : event;
    const auto* differs = std::get_if<job::VehicleDiffers>(&meant.body);
    if (differs == nullptr) return;
    std::vector<harness::Difference> differences =
        harness::that_hold(work_->harness_text, state_.differences);
    differences.push_back(differs->difference);
    harness_with(differences);
}

// The event, what it grants of the advice that it follows, and what both imply.
std::vector<job::Event> Session::with_consequences(const job::Event& event) const {
    std::vector<job::Body> bodies;
    if (state_.recommended) bodies = advice::granted(advice::from_text(state_.recommended->json), event.body);
    std::vector<job::Record> after = records();
    std::vector<job::Event> all;
    const auto take = [&](const job::Event& one) {
        for (job::Event& each : job::with_implied(one, after, work_->harness)) {
            after.push_back({after.size() + 1, 0, each});
            all.push_back(std::move(each));
        }
    };
    for (job::Body& body : bodies) take({std::move(body), std::nullopt});
    take(event);
    return all;
}

std::vector<job::Record> Session::enter(const job::Event& event) {
    refuse_impossible(event);
    const std::size_t before = records().size();
    work_->log->append(with_consequences(event));
    state_ = job::replay(records());
    if (state_.differences != work_->differences) {
        take_differences();
        take_up();
    }
    work_->advice.reset();
    return {records().begin() + static_cast<std::ptrdiff_t>(before), records().end()};
}

advice::Recommendation Session::suppose(const job::Event& event) {
    refuse_impossible(event);
    std::vector<job::Record> after = records();
    for (job::Event& each : with_consequences(event)) after.push_back({after.size() + 1, 0, std::move(each)});
    return work_->advisor->advise(job::replay(after), aim());
}

advice::Aim Session::aim() const {
    return work_->aim.value_or(last_aim(records()));
}

const advice::Recommendation& Session::advise() {
    if (work_->advice) return *work_->advice;
    if (state_.recommended) {
        work_->advice = advice::from_text(state_.recommended->json);
        if (!work_->aim || work_->advice->aim == *work_->aim) return *work_->advice;
    }
    work_->advice = work_->advisor->advise(state_, aim());
    work_->log->append(job::Event{job::Recommended{advice::to_text(*work_->advice)}});
    state_ = job::replay(records());
    return *work_->advice;
}

job::Event Session::parse(const std::vector<std::string>& words) {
    const auto& full_events = job::event_words();
    const bool bare = words.empty() ||
                      std::find(full_events.begin(), full_events.end(), words.front()) == full_events.end();
    const bool verdict = !words.empty() && (words.front() == "faulty" || words.front() == "sound" ||
                                            words.front() == "unsure" || words.front() == "unreached");
    // A reading in full may be the one that was asked for as well; what was not asked for yet need not be.
    const bool asked = !words.empty() && words.front() == "reading" && state_.recommended.has_value();
    return job::parse_event(words, work_->harness, state_,
                            bare || verdict || asked ? expectation() : job::Expectation{});
}

job::Expectation Session::expectation() {
    const advice::Recommendation& next = advise();
    switch (next.action) {
        case advice::Action::Read:
            return {.red = next.red.name,
                    .black = next.black.name,
                    .quantity = next.quantity == "volt" ? job::Quantity::Volt : job::Quantity::Ohm,
                    .moved = next.move_loom};
        case advice::Action::Look:
        case advice::Action::Repair:
            return {"", "", next.target.part};
        default:
            return {};
    }
}

}  // namespace halfsplit::session
