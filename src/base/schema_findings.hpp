// What a document breaks of its schema, as findings that say what to do.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "base/collector.hpp"

#include <string>
#include <string_view>

namespace halfsplit {

// `page`: the document that describes the format to people. Throws as validate().
void check_schema(const nlohmann::json& document, std::string_view schema, const std::string& page,
                  Collector& findings);

}  // namespace halfsplit
