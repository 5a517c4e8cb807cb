#include "halfsplit/job/state.hpp"

#include "resolve.hpp"

#include <algorithm>

namespace halfsplit::job {

namespace {

constexpr double seconds_per_minute = 60;

// Could it change what is suspected, or what it costs to look?
bool changes_evidence(const Event& event) {
    return !std::holds_alternative<Remark>(event.body) && !std::holds_alternative<Paused>(event.body) &&
           !std::holds_alternative<Resumed>(event.body) && !std::holds_alternative<Recommended>(event.body);
}

bool is_correction(const Event& event) {
    return std::holds_alternative<Undo>(event.body) || std::holds_alternative<Amend>(event.body);
}

bool was_entered(const Event& event) {
    return !std::holds_alternative<Opened>(event.body) && !std::holds_alternative<Recommended>(event.body) &&
           !std::holds_alternative<Undo>(event.body) && !is_implied(event);
}

void add_once(std::vector<std::string>& names, const std::string& name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

void remove(std::vector<std::string>& names, const std::string& name) {
    names.erase(std::remove(names.begin(), names.end(), name), names.end());
}

class Stopwatch {
  public:
    void record(const Resolved& resolved) {
        const UnixSeconds now = resolved.record->time;
        if (resolved.minutes) {
            minutes_ += *resolved.minutes;
        } else if (running_) {
            minutes_ += static_cast<double>(std::max<UnixSeconds>(0, now - previous_)) / seconds_per_minute;
        }
        previous_ = now;
        running_ = !std::holds_alternative<Paused>(resolved.event->body) &&
                   !std::holds_alternative<Closed>(resolved.event->body);
    }
    double minutes() const { return minutes_; }

  private:
    bool running_ = false;
    UnixSeconds previous_ = 0;
    double minutes_ = 0;
};

class Fold {
  public:
    explicit Fold(const std::vector<Record>& records) : records_(records) {}

    State run() {
        for (const Resolved& resolved : resolve(records_)) {
            state_.last = resolved.record->sequence;
            if (!resolved.counts) {
                state_.undone.insert(state_.last);
                continue;
            }
            take(resolved);
        }
        state_.minutes_spent = stopwatch_.minutes();
        if (recommended_ != nullptr) state_.recommended = *recommended_;
        return std::move(state_);
    }

  private:
    void take(const Resolved& resolved) {
        sequence_ = resolved.record->sequence;
        time_ = resolved.record->time;
        stopwatch_.record(resolved);
        if (was_entered(resolved.record->event)) state_.entered.push_back(sequence_);
        state_.paused = std::holds_alternative<Paused>(resolved.event->body);
        if (is_correction(*resolved.event)) {
            if (corrects_before_advice(*resolved.event)) recommended_ = nullptr;
        } else if (changes_evidence(*resolved.event)) {
            recommended_ = nullptr;
            state_.closed = false;
        }
        std::visit([this](const auto& body) { apply(body); }, resolved.event->body);
    }

    // What was corrected after the advice was given counts, or does not, in its own place after the advice.
    bool corrects_before_advice(const Event& correction) const {
        const auto target = target_of(records_, position_of(records_, sequence_).value_or(0));
        if (!target || records_[*target].sequence > advised_at_) return false;
        const auto* amend = std::get_if<Amend>(&correction.body);
        return changes_evidence(records_[*target].event) ||
               (amend != nullptr && changes_evidence(*amend->event));
    }

    CircuitState circuit() const { return circuit_now(state_); }

    void apply(const Opened& opened) {
        if (sequence_ == 1) state_.opened = opened;
    }
    void apply(const Intake& intake) { state_.intake = intake; }
    void apply(const SafeState& safe_state) {
        state_.safe_state = safe_state;
        state_.safe_state_at = sequence_;
    }
    void apply(const Answers& answers) {
        state_.scans.push_back({sequence_, answers, {}});
        state_.scans.back().state = circuit();
    }
    void apply(const Reading& reading) { state_.readings.push_back({sequence_, time_, reading, circuit()}); }
    void apply(const Distance& distance) { state_.distances.push_back({sequence_, distance, circuit()}); }
    void apply(const Seen& seen) { state_.seen.push_back({sequence_, seen, state_.repairs.size()}); }
    void apply(const CoverChange& change) {
        if (change.off) {
            add_once(state_.covers_off, change.cover);
        } else {
            remove(state_.covers_off, change.cover);
        }
    }
    void apply(const PlugChange& change) {
        std::vector<std::string>& into = change.plugged ? state_.reseated : state_.apart;
        remove(change.plugged ? state_.apart : state_.reseated, change.part);
        add_once(into, change.part);
    }
    void apply(const ClipMoved& clip) { state_.clip = clip.point; }
    void apply(const Repair& repair) {
        state_.repairs.push_back({sequence_, repair});
        state_.verified.reset();
        state_.verified_at.reset();
    }
    void apply(const Verified& verified) {
        state_.verified = verified;
        state_.verified_at = sequence_;
    }
    void apply(const MeterUsed& used) { state_.meter = used.meter; }
    void apply(const PinsTried& pins) {
        state_.pins.tried += pins.tried;
        state_.pins.slips += pins.slips;
    }
    void apply(const VehicleDiffers& differs) { state_.differences.push_back(differs.difference); }
    void apply(const Remark& remark) { state_.remarks.push_back(remark.text); }
    void apply(const Paused&) {}
    void apply(const Resumed&) {}
    void apply(const Closed&) { state_.closed = true; }
    void apply(const Recommended& recommended) {
        recommended_ = &recommended;
        advised_at_ = sequence_;
    }
    void apply(const Amend&) {}
    void apply(const Undo&) {}

    const std::vector<Record>& records_;
    State state_;
    Stopwatch stopwatch_;
    Sequence sequence_ = 0;
    UnixSeconds time_ = 0;
    Sequence advised_at_ = 0;
    const Recommended* recommended_ = nullptr;  // copied once: it is most of a log
};

}  // namespace

CircuitState circuit_now(const State& state) {
    CircuitState circuit;
    circuit.apart = state.apart;
    std::sort(circuit.apart.begin(), circuit.apart.end());
    circuit.reseated = state.reseated;
    std::sort(circuit.reseated.begin(), circuit.reseated.end());
    circuit.repairs = state.repairs.size();
    if (!state.safe_state || !state.safe_state_at) return circuit;
    const bool scanned_since = !state.scans.empty() && state.scans.back().sequence > *state.safe_state_at;
    const bool proved_since = state.verified_at && *state.verified_at > *state.safe_state_at;
    if (scanned_since || proved_since) return circuit;
    circuit.battery_off = state.safe_state->battery_off;
    circuit.bus_asleep = state.safe_state->bus_asleep;
    return circuit;
}

std::vector<double> minutes_by_record(const std::vector<Record>& records) {
    std::vector<double> minutes;
    minutes.reserve(records.size());
    Stopwatch stopwatch;
    for (const Resolved& resolved : resolve(records)) {
        const double before = stopwatch.minutes();
        if (resolved.counts) stopwatch.record(resolved);
        minutes.push_back(stopwatch.minutes() - before);
    }
    return minutes;
}

State replay(const std::vector<Record>& records) {
    return Fold(records).run();
}

std::optional<Sequence> last_undoable(const std::vector<Record>& records) {
    const State state = replay(records);
    if (state.entered.empty()) return std::nullopt;
    return state.entered.back();
}

}  // namespace halfsplit::job
