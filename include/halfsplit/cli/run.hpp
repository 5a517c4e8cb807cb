// The whole program, callable in-process.
#pragma once

#include "halfsplit/base/clock.hpp"
#include "halfsplit/base/files.hpp"
#include "halfsplit/cli/terminal.hpp"
#include "halfsplit/harness/read.hpp"

#include <iosfwd>
#include <string>
#include <vector>

namespace halfsplit::cli {

struct Context {
    std::ostream& out;
    std::ostream& err;
    Files& files;
    Clock& clock;
    Terminal& terminal;
    harness::IncludeRules include = {};
};

// Exit codes. Never a count.
enum Exit : int { fine = 0, findings = 1, unusable = 2, own_failure = 3 };

// `arguments` without the program's name. Returns an exit code; never throws, never exits.
int run(const std::vector<std::string>& arguments, Context& context);

}  // namespace halfsplit::cli
