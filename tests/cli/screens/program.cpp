// The program as it is on a terminal, but by a clock of its own: a minute passes whenever it is read, so that
// a screen shows the same minutes on every machine.
#include "halfsplit/cli/run.hpp"

#include "support/ticking_clock.hpp"

#include <iostream>
#include <string>
#include <vector>

int main(int count, char** arguments) {
    const auto terminal = halfsplit::cli::system_terminal();
    halfsplit::test::TickingClock clock;
    halfsplit::cli::Context context{std::cout, std::cerr, halfsplit::posix_files(), clock, *terminal};
    return halfsplit::cli::run(std::vector<std::string>(arguments + 1, arguments + count), context);
}
