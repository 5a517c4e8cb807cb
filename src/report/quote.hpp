// A quote and the parts that cost most, in words and as data: the same for a harness and for a job.
#pragma once

#include "halfsplit/advice/survey.hpp"

#include <nlohmann/json_fwd.hpp>

#include "report/page.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::report {

// "expected 35 min, 90 % within 1 h 5 min, worst 1 h 30 min, from the start to the find, refitting included".
std::string quote_words(const advice::Quote& quote, const advice::Aim& aim, std::string_view from);

// What the aim came to, where it is not the expected minutes alone; begins with "; " where there is something
// to say.
std::string aim_words(const advice::Quote& quote, const advice::Aim& aim);

// "a repair that did not take (10 %): the same part again; a further fault (5 %): at most about 25 min more
// to find it, with the covers off that are".
std::string not_cured_words(const advice::NotCured& not_cured);

std::string with_name(const std::string& id, const std::string& name);
void add_costly_parts(const std::vector<advice::CostlyPart>& costly, std::string_view heading, Page& page);

nlohmann::json not_cured_json(const advice::NotCured& not_cured);
nlohmann::json quote_json(const advice::Quote& quote);
nlohmann::json costly_json(const std::vector<advice::CostlyPart>& costly);

}  // namespace halfsplit::report
