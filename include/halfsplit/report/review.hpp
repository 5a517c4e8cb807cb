// A job's review for the shop lead, as text and as JSON. Pure: the same data gives the same text.
#pragma once

#include "halfsplit/advice/review.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>

namespace halfsplit::report {

// A summary (vehicle, complaint, cause, correction, minutes, and whether the job is finished), the steps by
// record number, proofs, detours, contradictions, repeats, what is still open, minutes. Lines of at most
// `columns` (at least 30), each with its line end; nothing is told by colour. Times are UTC, as in the log.
std::string review_text(const advice::Review& review, std::size_t columns);

// Schema docs/schema/review.schema.json. Minutes and chances are rounded to four decimals.
nlohmann::json review_json(const advice::Review& review);

}  // namespace halfsplit::report
