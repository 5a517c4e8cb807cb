// A hunt played against a made-up fault: the readings come from the circuit with that fault in it, the
// answers to every other question from a technician who does what is advised. With `slips` above 0 a probe
// now and then makes no contact, with `wrong_wires` it now and then goes to another wire of the same half;
// with `missed_faults` and `false_alarms` the eyes are wrong as well.
#pragma once

#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/diagnosis/fault.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/event.hpp"

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::session {

struct MadeUp {
    std::vector<diagnosis::Fault> faults;  // one or a few
    std::size_t variant = 0;               // of the vehicle
    std::string name;                      // PART:MODE; two joined by " and "
};

struct PlayOptions {
    std::uint64_t seed = 1;
    double slips = 0;              // chance that a probe reads OL, in volts 0 V; 0 to 1
    double wrong_wires = 0;        // chance that the red tip, in ohms, is at another wire of the half; 0 to 1
    double missed_faults = 0;      // chance that a faulty part looks sound; 0 to 1
    double false_alarms = 0;       // chance that a sound part looks faulty, and is repaired; 0 to 1
    bool to_the_end = true;        // false: stop when every faulty part has been laid bare
    std::size_t most_steps = 400;  // give up after as many
};

struct Played {
    bool found = false;  // every faulty part was laid bare
    std::size_t probes = 0, looks = 0;
    double minutes = 0;           // of the cost model, until the last of them was laid bare
    double expected_minutes = 0;  // as the first planned advice had it
    std::vector<job::Record>
        records;  // times count the minutes from the start; the job is not opened in them
};

class Rehearsal {
  public:
    // Keeps a reference to the harness.
    Rehearsal(const harness::Harness& harness, harness::Index network);

    // Every single fault that can be on this vehicle, one severity of each, in order of part.
    std::vector<MadeUp> faults() const;
    // Throws InputError with the nearest name.
    MadeUp fault_named(const std::string& name) const;
    // Several at once. Throws InputError as well when they cannot be on one and the same vehicle.
    MadeUp faults_named(const std::vector<std::string>& names) const;

    Played play(const MadeUp& truth, const PlayOptions& options);

  private:
    const harness::Harness& harness_;
    harness::Index network_;
    advice::Advisor advisor_;
    diagnosis::Predictor predictor_;
    std::map<std::string, advice::Recommendation>
        given_;  // advice by what had happened: hunts share their first steps
};

}  // namespace halfsplit::session
