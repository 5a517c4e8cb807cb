#include "support/program.hpp"

#include "halfsplit/cli/run.hpp"

#include "support/fake_clock.hpp"
#include "support/fake_files.hpp"

#include <sstream>

namespace halfsplit::test {

Said run_program(const std::vector<std::string>& arguments, Files& files) {
    std::istringstream in;
    std::ostringstream out;
    std::ostringstream err;
    FakeClock clock;
    cli::PlainTerminal terminal(in, out, 80);
    cli::Context context{out, err, files, clock, terminal};
    const int code = cli::run(arguments, context);
    return {code, out.str(), err.str()};
}

Said run_program(const std::vector<std::string>& arguments) {
    FakeFiles files;
    return run_program(arguments, files);
}

}  // namespace halfsplit::test
