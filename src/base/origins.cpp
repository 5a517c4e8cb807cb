#include "halfsplit/base/origins.hpp"

#include <utility>

namespace halfsplit {

JsonOrigins::JsonOrigins(std::string_view text, std::string file_name)
    : text_(text), file_name_(std::move(file_name)) {}

std::vector<Location> JsonOrigins::locate(const std::vector<Spot>& spots) const {
    return halfsplit::locate(text_, spots, file_name_);
}

void JsonOrigins::quote(std::vector<Finding>& findings) const {
    quote_lines(findings, text_);
}

}  // namespace halfsplit
