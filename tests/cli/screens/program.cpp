// The program as it is on a terminal, but by a clock of its own: a minute passes whenever it is read, so that
// a screen shows the same minutes on every machine. Where HALFSPLIT_STAGE_CLOCK names a file, the clock
// stands in it and goes on from one run to the next.
#include "halfsplit/cli/process.hpp"
#include "halfsplit/cli/run.hpp"

#include "support/ticking_clock.hpp"

#include <cstdlib>
#include <fstream>
#include <iostream>

// Asked by the leak sanitizer, where there is one: libedit keeps the names of added functions to the end.
extern "C" const char* __lsan_default_suppressions() {
    return "leak:wcsdup\n";
}
extern "C" const char* __lsan_default_options() {
    return "print_suppressions=0";
}

int main(int count, char** arguments) {
    const halfsplit::cli::Process process(count, arguments);
    const auto terminal = halfsplit::cli::system_terminal();
    halfsplit::test::TickingClock clock;
    const char* kept = std::getenv("HALFSPLIT_STAGE_CLOCK");
    halfsplit::UnixSeconds time = 0;
    if (kept != nullptr && std::ifstream(kept) >> time) clock.set(time);
    halfsplit::cli::Context context{std::cout, std::cerr, halfsplit::system_files(), clock, *terminal};
    const int code = halfsplit::cli::run(process.arguments(), context);
    if (kept != nullptr) std::ofstream(kept) << clock.FakeClock::now();
    return code;
}
