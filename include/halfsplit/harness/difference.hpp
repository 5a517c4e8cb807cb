// What a vehicle turned out to be, against what its harness file says: found out during a hunt, and kept
// beside the file, which stays as it was.
#pragma once

#include "halfsplit/harness/harness.hpp"
#include "halfsplit/harness/read.hpp"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::harness {

struct Difference {
    enum class Kind : std::uint8_t {
        Fitted,     // an option or a part is there, or is not
        Connector,  // a connector that the drawing leaves out, in a run
        Place,      // a part is reached elsewhere
        Minutes     // a cover takes longer, or less
    } kind = Kind::Fitted;
    std::string id;  // option or part; the new connector; the part; the cover

    Fitted fitted = Fitted::Yes;
    std::string run;  // that the connector is in; what is behind it becomes a run of its own
    std::array<std::string, 2> cavity;  // of the connector, by Line
    std::optional<double> after_m;      // from the run's `from` end, metres; otherwise half its length
    std::string place;                  // of a connector: empty where it is reached as the run is
    std::vector<std::string> covers;
    double off_minutes = 0, on_minutes = 0;
    bool operator==(const Difference&) const = default;
};

// The harness of a text that stands alone, with the differences in their order. A difference that makes no
// sense is a finding: difference-unknown for a name that is not there, otherwise what `check` would find in
// such a file. Never throws. Linear in the text and the differences.
ReadResult read_with_differences(std::string_view text, const std::string& file_name,
                                 const std::vector<Difference>& differences);

// Those of the differences, in their order, that still make a sound harness: one that was taken back may
// leave others without what they speak of. As many readings of the harness as there are differences.
std::vector<Difference> that_hold(std::string_view text, const std::vector<Difference>& differences);

}  // namespace halfsplit::harness
