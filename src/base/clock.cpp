#include "halfsplit/base/clock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>

namespace halfsplit {

namespace {

using std::chrono::sys_days;
using std::chrono::sys_seconds;
using std::chrono::year_month_day;

class SystemClock : public Clock {
  public:
    UnixSeconds now() override {
        const auto time = std::chrono::system_clock::now();
        return std::chrono::floor<std::chrono::seconds>(time).time_since_epoch().count();
    }
};

constexpr UnixSeconds earliest =
    sys_seconds{sys_days{std::chrono::year{0} / 1 / 1}}.time_since_epoch().count();
constexpr UnixSeconds latest =
    sys_seconds{sys_days{std::chrono::year{10000} / 1 / 1}}.time_since_epoch().count() - 1;

constexpr std::string_view pattern = "dddd-dd-ddTdd:dd:ddZ";

bool has_pattern(std::string_view text) {
    return std::equal(text.begin(), text.end(), pattern.begin(), pattern.end(), [](char have, char want) {
        return want == 'd' ? have >= '0' && have <= '9' : have == want;
    });
}

unsigned number_at(std::string_view text, std::size_t from, std::size_t digits) {
    unsigned value = 0;
    std::from_chars(text.data() + from, text.data() + from + digits, value);
    return value;
}

}  // namespace

Clock& system_clock() {
    static SystemClock clock;
    return clock;
}

std::string format_time(UnixSeconds time) {
    const sys_seconds moment{std::chrono::seconds{std::clamp(time, earliest, latest)}};
    const sys_days day = std::chrono::floor<std::chrono::days>(moment);
    const year_month_day date{day};
    const std::chrono::hh_mm_ss clock{moment - day};
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                       clock.hours().count(), clock.minutes().count(), clock.seconds().count());
}

std::optional<UnixSeconds> parse_time(std::string_view text) {
    if (!has_pattern(text)) return std::nullopt;
    const year_month_day date{std::chrono::year{static_cast<int>(number_at(text, 0, 4))},
                              std::chrono::month{number_at(text, 5, 2)},
                              std::chrono::day{number_at(text, 8, 2)}};
    const unsigned hours = number_at(text, 11, 2);
    const unsigned minutes = number_at(text, 14, 2);
    const unsigned seconds = number_at(text, 17, 2);
    if (!date.ok() || hours > 23 || minutes > 59 || seconds > 59) return std::nullopt;
    const sys_seconds moment = sys_days{date} + std::chrono::hours{hours} + std::chrono::minutes{minutes} +
                               std::chrono::seconds{seconds};
    return moment.time_since_epoch().count();
}

}  // namespace halfsplit
