// The sections of a review, in the order they stand in.
#pragma once

#include "halfsplit/advice/review.hpp"

#include "report/page.hpp"

namespace halfsplit::report {

void add_summary(const advice::Review& review, Page& page);
void add_steps(const advice::Review& review, Page& page);
void add_proofs(const advice::Review& review, Page& page);
void add_detours(const advice::Review& review, Page& page);
void add_contradictions(const advice::Review& review, Page& page);
void add_weak_evidence(const advice::Review& review, Page& page);
void add_repeats(const advice::Review& review, Page& page);
void add_open_ends(const advice::Review& review, Page& page);
void add_minutes(const advice::Review& review, Page& page);
void add_log(const advice::Review& review, Page& page);

}  // namespace halfsplit::report
