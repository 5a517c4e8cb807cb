// JSON as the commands print it.
#pragma once

#include "halfsplit/base/text.hpp"

#include <nlohmann/json.hpp>

#include <ostream>

namespace halfsplit::cli {

// What could upset a terminal stands as \u escapes, so that nothing of it is lost; bytes that are no UTF-8 as
// U+FFFD.
inline void put_json(std::ostream& out, const nlohmann::json& value) {
    out << escaped_json(value.dump(2, ' ', false, nlohmann::json::error_handler_t::replace)) << '\n';
}

}  // namespace halfsplit::cli
