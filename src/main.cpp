#include "halfsplit/cli/run.hpp"

#include <iostream>
#include <string>
#include <vector>

int main(int count, char** arguments) {
    const auto terminal = halfsplit::cli::system_terminal();
    halfsplit::cli::Context context{std::cout, std::cerr, halfsplit::posix_files(), halfsplit::system_clock(),
                                    *terminal};
    return halfsplit::cli::run(std::vector<std::string>(arguments + 1, arguments + count), context);
}
