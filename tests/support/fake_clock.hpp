// A clock that a test sets.
#pragma once

#include "halfsplit/base/clock.hpp"

namespace halfsplit::test {

class FakeClock : public Clock {
  public:
    explicit FakeClock(UnixSeconds time = 1'772'351'100) : time_(time) {}  // 2026-03-01T07:45:00Z
    UnixSeconds now() override { return time_; }
    void advance_minutes(double minutes) { time_ += static_cast<UnixSeconds>(minutes * 60); }
    void set(UnixSeconds time) { time_ = time; }

  private:
    UnixSeconds time_;
};

}  // namespace halfsplit::test
