// The parts of a review's page, in the order they stand in. Each returns HTML.
#pragma once

#include "halfsplit/advice/review.hpp"

#include "report/review_links.hpp"
#include "report/review_pictures.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

namespace halfsplit::report {

struct ReviewPage {
    const advice::Review& review;
    Links links;
    std::size_t first_step = 0;  // steps before it are left out
};

// A section with its heading and an anchor.
std::string page_section(std::string_view anchor, std::string_view heading, const std::string& content);
// A cell or a term with text in it, links made.
std::string linked(const ReviewPage& page, std::string_view tag, std::string_view words,
                   std::string_view attributes = "");
// A term and what is said of it; nothing for an empty text.
std::string term(const ReviewPage& page, std::string_view name, const std::string& words);

std::string page_verdict(const ReviewPage& page);  // one glance: whole or not, to bill, to do
std::string page_story(const ReviewPage& page);    // complaint, cause, correction
std::string page_minutes(const ReviewPage& page);
std::string page_outlooks(const ReviewPage& page);  // what was suspected after each reading
std::string page_steps(const ReviewPage& page, Pictures& pictures);
std::string page_detours(const ReviewPage& page);
std::string page_doubts(const ReviewPage& page);  // contradictions, weak evidence, repeats
std::string page_proofs(const ReviewPage& page);
std::string page_open_ends(const ReviewPage& page);
std::string page_assumed(const ReviewPage& page);
std::string page_log(const ReviewPage& page);

}  // namespace halfsplit::report
