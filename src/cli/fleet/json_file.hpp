// A small JSON file of this program's own: read, held against its schema, or refused with everything that is
// wrong with it.
#pragma once

#include "halfsplit/base/files.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace halfsplit::cli {

// `kind`: what sort of file is wanted, in a word. Throws InputError.
nlohmann::json read_json_file(Files& files, const std::string& path, const std::string& schema,
                              const std::string& kind);

}  // namespace halfsplit::cli
