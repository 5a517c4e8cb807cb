#include "support/random_event.hpp"

#include <array>
#include <cmath>
#include <limits>

namespace halfsplit::test {

using namespace job;

std::string RandomEvents::text() {
    static const std::array<std::string, 16> pieces{"a",
                                                    "X3.a:4",
                                                    " ",
                                                    "\n",
                                                    "\r\n",
                                                    "\t",
                                                    "\"",
                                                    "\\",
                                                    "\",\"checksum\":\"0123456789abcdef\"}",
                                                    std::string(1, '\0'),
                                                    "\x7f",
                                                    "\xC3\xBC",          // u with two dots
                                                    "\xE2\x80\xA8",      // line separator
                                                    "\xEF\xBF\xBF",      // no character at all, yet valid
                                                    "\xF0\x9F\x94\xA7",  // four bytes
                                                    "\xEF\xBB\xBF"};     // byte order mark
    std::string text;
    for (std::size_t i = number(6); i > 0; --i) text += pieces.at(number(pieces.size() - 1));
    return text;
}

std::vector<std::string> RandomEvents::texts() {
    std::vector<std::string> list(number(3));
    for (std::string& each : list) each = text();
    return list;
}

double RandomEvents::figure() {
    switch (number(5)) {
        case 0:
            return std::numeric_limits<double>::infinity();
        case 1:
            return 0.1;
        case 2:
            return static_cast<double>(number(1000));
        case 3:
            return std::numeric_limits<double>::denorm_min();
        case 4:
            return -0.3;
        default:
            return std::exp(std::uniform_real_distribution<double>(-30, 30)(random_));
    }
}

// With what goes with its kind, and no more.
harness::Difference RandomEvents::difference() {
    using Kind = harness::Difference::Kind;
    harness::Difference result{.kind = static_cast<Kind>(number(3)), .id = text()};
    if (result.kind == Kind::Fitted) result.fitted = coin() ? harness::Fitted::Yes : harness::Fitted::No;
    if (result.kind == Kind::Connector) {
        result.run = text();
        result.cavity = {text(), text()};
        if (coin()) result.after_m = static_cast<double>(number(90)) / 7;
    }
    if (result.kind == Kind::Place || (result.kind == Kind::Connector && coin())) {
        result.place = "Z" + text();
        result.covers = texts();
    }
    if (result.kind == Kind::Minutes) {
        result.off_minutes = static_cast<double>(number(90)) / 7;
        result.on_minutes = static_cast<double>(number(90)) / 7;
    }
    return result;
}

Event RandomEvents::of_kind(std::size_t index) {
    Event event{body(index), {}};
    if (coin()) event.minutes = std::uniform_real_distribution<double>(0, 500)(random_);
    return event;
}

Body RandomEvents::body(std::size_t index) {
    const auto maybe = [this]() -> std::optional<bool> {
        return coin() ? std::optional<bool>(coin()) : std::nullopt;
    };
    switch (index) {
        case 0:
            return Opened{text(), text(), text(), text(), text()};
        case 1:
            return Intake{text(), text(), texts(), texts()};
        case 2:
            return SafeState{coin(), coin(), coin(), static_cast<double>(number(60)) / 7};
        case 3:
            return Answers{texts(), texts()};
        case 4: {
            const auto outcome = static_cast<Outcome>(number(4));
            return Reading{text(),
                           text(),
                           static_cast<Quantity>(number(1)),
                           outcome,
                           outcome == Outcome::Value ? figure() : 0,
                           coin(),
                           coin()};
        }
        case 5:
            return Distance{static_cast<electrics::DistanceMethod>(number(2)),
                            static_cast<electrics::DistanceLines>(number(2)),
                            text(),
                            text(),
                            static_cast<double>(number(1000)) * 1e-12,
                            static_cast<double>(number(1000)) / 7,
                            static_cast<double>(number(100)) / 3,
                            static_cast<double>(1 + number(100)) / 9,
                            text(),
                            static_cast<double>(number(100)) / 11,
                            text(),
                            texts()};
        case 6:
            return Seen{text(), static_cast<Verdict>(number(3)), text()};
        case 7:
            return CoverChange{text(), coin(), coin()};
        case 8:
            return PlugChange{text(), coin(), coin()};
        case 9:
            return ClipMoved{text()};
        case 10:
            return Repair{text(), static_cast<RepairAction>(number(4)), text()};
        case 11:
            return Verified{coin() ? std::optional<double>(figure()) : std::nullopt, maybe(), maybe(),
                            maybe()};
        case 12:
            return Remark{text()};
        case 13:
            return Paused{};
        case 14:
            return Resumed{};
        case 15:
            return Closed{};
        case 16:
            return MeterUsed{{text(), 0.5, 3, 6000, 0.1 * static_cast<double>(number(20)), 40e6, 30, 60}};
        case 17: {
            const std::uint64_t tried = 1 + number(40);
            return PinsTried{tried, number(tried)};
        }
        case 18:
            return VehicleDiffers{difference()};
        case 19:
            return Recommended{text()};
        case 20:
            return Amend{1 + number(40), std::make_shared<const Event>(of_kind(1 + number(17)))};
        default:
            return Undo{1 + number(40)};
    }
}

}  // namespace halfsplit::test
