// Which records count and with what content, once every undo and amend is applied.
#pragma once

#include "halfsplit/job/event.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace halfsplit::job {

// One record as it counts; by the record's position. Points into the records it was made from.
struct Resolved {
    const Record* record = nullptr;
    const Event* event = nullptr;   // the record's own, or the newest that amends it
    std::optional<double> minutes;  // entered
    bool counts = true;
};

std::vector<Resolved> resolve(const std::vector<Record>& records);

// Position of the record with that number; empty when there is none.
std::optional<std::size_t> position_of(const std::vector<Record>& records, Sequence sequence);

// Position of the record that an amend or undo at `from` is about, chains of amends followed to the record
// that was amended first. Empty when it cannot be followed: no such record, not an earlier one, or one that
// stays as it is.
std::optional<std::size_t> target_of(const std::vector<Record>& records, std::size_t from);

// Position of the record that implied the one at `position`: the nearest before it that is not implied
// itself.
std::size_t owner_of(const std::vector<Record>& records, std::size_t position);

}  // namespace halfsplit::job
