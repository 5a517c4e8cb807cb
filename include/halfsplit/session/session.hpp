// One job at work: harness, log and advice together. The one executor behind `hunt`, `next` and `note`.
//
// An entered event is on disk before enter() returns, together with what it implies. Advice is logged as data
// when it is given; asked again in the same state, the logged advice is handed back and nothing is planned.
#pragma once

#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/base/clock.hpp"
#include "halfsplit/base/files.hpp"
#include "halfsplit/base/finding.hpp"
#include "halfsplit/harness/harness.hpp"
#include "halfsplit/harness/read.hpp"
#include "halfsplit/job/event.hpp"
#include "halfsplit/job/log.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/job/words.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::session {

struct Opening {
    std::string harness_path;
    std::string job_path;
    std::string network;             // id; empty: the job's own, or the first of the file
    std::optional<advice::Aim> aim;  // none: that of the job's last advice
    harness::IncludeRules include = {};
};

// The network of that id, the first of the file for an empty id. Throws InputError with the nearest name.
harness::Index chosen_network(const harness::Harness& harness, const std::string& id,
                              const std::string& file);

class Session {
  public:
    // Opens the job or starts it. Throws InputError for a harness or network that cannot be used, FileError
    // and job::DamagedLog for a log that cannot.
    Session(Files& files, Clock& clock, const Opening& opening);
    ~Session();
    Session(const Session&) = delete;
    Session& operator=(const Session&) = delete;

    const harness::Harness& harness() const;
    harness::Index network() const;
    const std::vector<job::Record>& records() const;
    const job::State& state() const { return state_; }
    bool resumed() const { return resumed_; }
    // Things to tell once: a torn tail, a harness file that has changed since the job was opened, warnings of
    // the file.
    const std::vector<std::string>& notices() const { return notices_; }

    // The event and what it implies, on disk. Returns the records written. Throws InputError where it cannot
    // be taken (ohms before the safe state is told, an undo of nothing), FileError when the disk fails.
    std::vector<job::Record> enter(const job::Event& event);

    // What to do next; logged when it is new.
    const advice::Recommendation& advise();

    // What would be advised if the event were entered; nothing is written. Throws as enter() does. Plans
    // anew. The vehicle stays as it is, also where the event says that it differs.
    advice::Recommendation suppose(const job::Event& event);

    // The event that the words say here (job::parse_event). Plans only for a bare answer to advice not yet
    // given.
    job::Event parse(const std::vector<std::string>& words);

  private:
    struct Work;
    void load_harness(Files& files, const Opening& opening);
    void open_log(Files& files, Clock& clock, const Opening& opening);
    void refuse_impossible(const job::Event& event) const;
    std::vector<job::Event> with_consequences(const job::Event& event) const;
    advice::Aim aim() const;
    void refuse_difference(const job::Event& event) const;
    harness::Harness harness_with(const std::vector<harness::Difference>& differences) const;
    void take_differences();
    void take_up();
    job::Expectation expectation();

    std::unique_ptr<Work> work_;
    job::State state_;
    std::vector<std::string> notices_;
    bool resumed_ = false;
};

}  // namespace halfsplit::session
