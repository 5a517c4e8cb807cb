// The wall clock, behind an interface so that a job can be replayed and a test can say what time it is.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace halfsplit {

// Seconds since 1970-01-01T00:00:00Z.
using UnixSeconds = std::int64_t;

class Clock {
  public:
    virtual ~Clock() = default;
    virtual UnixSeconds now() = 0;
};

Clock& system_clock();

// "2026-03-01T07:45:00Z" and back (RFC 3339, UTC, whole seconds); empty when the text is not exactly of that
// form or names no time of the calendar. Years 0000 to 9999: a clock further off is given as the nearer end
// of that range.
std::string format_time(UnixSeconds time);
std::optional<UnixSeconds> parse_time(std::string_view text);

}  // namespace halfsplit
