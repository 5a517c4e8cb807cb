// What follows from an event without being said: whoever read at a place had the covers before it off, and
// what was reseated is plugged in again. Such changes are recorded as implied, told, and can be corrected
// like any other.
#pragma once

#include "halfsplit/harness/harness.hpp"
#include "halfsplit/job/event.hpp"

#include <vector>

namespace halfsplit::job {

// `event`, followed by the records it implies, ready to be appended in one write. `records` are the job's so
// far.
//   covers off     before both tips of a reading (unless the answer was "could not reach"), before both
//                  ends of a distance, before a part
//                  that was looked at, repaired, plugged or unplugged, and before a point the clip moved to;
//                  outermost first
//   plugged        a part that was reseated, a bridge plug that was fitted
// After an amend or an undo, whatever the records that still count imply and no record says (an undone
// reading may have been the one that had told of a cover which a later reading needed off as well). What a
// person said later against an implied change (`cover on`, undoing the implied record) stands. Names that the
// harness does not know imply nothing. Linear in the records.
std::vector<Event> with_implied(Event event, const std::vector<Record>& records,
                                const harness::Harness& harness);

}  // namespace halfsplit::job
