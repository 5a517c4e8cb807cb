// A job's review for the shop lead, as text, as JSON and as a page. Pure: the same data gives the same text.
#pragma once

#include "halfsplit/advice/review.hpp"
#include "halfsplit/harness/harness.hpp"

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

// The same as one page of HTML that stands alone: no script, nothing fetched, readable from 360 pixels on,
// printable on A4 and Letter, with a drawing for every step that changed what is suspected. What is left out
// of a long job is told on the page: pictures of older steps beyond `most_picture_bytes`, steps beyond
// `most_steps`. `harness` and `network` are the job's own, for the drawing. docs/reference/review.md says
// what is on it.
std::string review_html(const advice::Review& review, const harness::Harness& harness,
                        harness::Index network);
inline constexpr std::size_t most_picture_bytes = 350'000;
inline constexpr std::size_t most_steps = 500;

}  // namespace halfsplit::report
