// A clock by which a minute passes whenever it is read.
#pragma once

#include "support/fake_clock.hpp"

namespace halfsplit::test {

class TickingClock : public FakeClock {
  public:
    UnixSeconds now() override {
        advance_minutes(1);
        return FakeClock::now();
    }
};

}  // namespace halfsplit::test
