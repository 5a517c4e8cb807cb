// The program as it is on a terminal, but by a clock of its own: a minute passes whenever it is read, so that
// a screen shows the same minutes on every machine.
#include "halfsplit/cli/run.hpp"

#include "support/ticking_clock.hpp"

#include <iostream>
#include <string>
#include <vector>

// Asked by the leak sanitizer, where there is one: libedit keeps the names of added functions to the end.
extern "C" const char* __lsan_default_suppressions() {
    return "leak:wcsdup\n";
}
extern "C" const char* __lsan_default_options() {
    return "print_suppressions=0";
}

int main(int count, char** arguments) {
    const auto terminal = halfsplit::cli::system_terminal();
    halfsplit::test::TickingClock clock;
    halfsplit::cli::Context context{std::cout, std::cerr, halfsplit::posix_files(), clock, *terminal};
    return halfsplit::cli::run(std::vector<std::string>(arguments + 1, arguments + count), context);
}
