// Jobs of our own invention on the small chain, written by hand through the log: what a review is tested on.
#pragma once

#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/job/event.hpp"
#include "halfsplit/job/log.hpp"

#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"

#include <optional>
#include <string>
#include <vector>

namespace halfsplit::test {

// Writes a job a record at a time; what a record implies is written with it. Each returns the number of the
// record.
class JobWriter {
  public:
    JobWriter();

    job::Sequence enter(double minutes_later, job::Body body, std::optional<double> entered_minutes = {});
    job::Sequence advise(const advice::Recommendation& recommendation);
    // A reading in ohm; infinity is OL.
    job::Sequence read(double minutes_later, const std::string& red, const std::string& black, double ohm);
    job::Sequence amend(double minutes_later, job::Sequence target, job::Body body);

    job::Sequence last() const { return log_.records().size(); }
    // As a reader finds them in the file.
    std::vector<job::Record> saved();

  private:
    FakeFiles files_;
    FakeClock clock_;
    job::Log log_;
};

// The beginning that every hunt has: intake, scan, safe state. 15 minutes.
void begin(JobWriter& job);
void make_safe(JobWriter& job, double minutes_later);

advice::Recommendation read_advice(const std::string& red, const std::string& black, double now,
                                   double expected, double worst);
advice::Recommendation look_advice(const std::string& part, double now, double expected, double worst);
advice::Recommendation step_advice(advice::Action action, const std::string& part = "");

// Two faults: the first repair does not cure. After a pause a bad probe contact misleads until it is read
// again, and a look that was not advised finds the second fault. Closed with everything back.
std::vector<job::Record> job_with_a_repair_that_did_not_cure();

// A wrong reading that a later one contradicts, undone and amended records, entered minutes, repeats; left
// with a cover off and a terminator unplugged.
std::vector<job::Record> job_left_open();

}  // namespace halfsplit::test
