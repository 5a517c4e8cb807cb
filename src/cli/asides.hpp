// What is asked at a prompt and changes nothing: why, others, if, where, map, say.
#pragma once

#include "halfsplit/cli/run.hpp"
#include "halfsplit/report/step_text.hpp"
#include "halfsplit/session/session.hpp"

#include <string>
#include <vector>

namespace halfsplit::cli {

// The words that begin one, for completion.
const std::vector<std::string>& aside_words();

// Answers on `out` and says so; false where the line asks nothing of the kind. Throws InputError where what
// is supposed, or a name, makes no sense.
bool answer_aside(const std::vector<std::string>& words, session::Session& session,
                  const report::Screen& screen, std::ostream& out);

}  // namespace halfsplit::cli
