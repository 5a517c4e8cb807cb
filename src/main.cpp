#include "halfsplit/cli/process.hpp"
#include "halfsplit/cli/run.hpp"

#include <iostream>

int main(int count, char** arguments) {
    const halfsplit::cli::Process process(count, arguments);
    const auto terminal = halfsplit::cli::system_terminal();
    halfsplit::cli::Context context{std::cout, std::cerr, halfsplit::system_files(),
                                    halfsplit::system_clock(), *terminal};
    const int code = halfsplit::cli::run(process.arguments(), context);
    if (process.delivered()) return code;
    std::cerr
        << "halfsplit: standard output could not be written: make room there, or choose another place\n";
    return halfsplit::cli::Exit::unusable;
}
