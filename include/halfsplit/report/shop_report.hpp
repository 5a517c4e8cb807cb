// All saved jobs of a shop as text, data and rows. Pure.
#pragma once

#include "halfsplit/advice/shop.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace halfsplit::report {

// Files that could not be read as a job, each with the reason.
using Unread = std::vector<std::pair<std::string, std::string>>;

std::string shop_text(const advice::Shop& shop, const Unread& unread, std::size_t columns);

// Schema docs/schema/review-shop.schema.json.
nlohmann::json shop_json(const advice::Shop& shop, const Unread& unread);

// One row for each job, as of survey_rows_csv(); those unread last, with the reason.
std::string shop_csv(const advice::Shop& shop, const Unread& unread);

}  // namespace halfsplit::report
