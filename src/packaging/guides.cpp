// Writes the manual pages and the completions into a folder: halfsplit_guides FOLDER. Part of the build, not
// installed.
#include "cli/guide/completions.hpp"
#include "cli/guide/man_page.hpp"

#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <stdexcept>
#include <string>

namespace {

void write(const std::filesystem::path& path, const std::string& text) {
    std::filesystem::create_directories(path.parent_path());
    std::ofstream out(path, std::ios::binary);
    out << text;
    if (!out.flush()) throw std::runtime_error("cannot write " + path.string());
}

void write_guides(const std::filesystem::path& folder) {
    using namespace halfsplit::cli;
    const GuideProgram program = guide_model();
    std::filesystem::remove_all(folder);  // pages of commands that are no more
    write(folder / "man1/halfsplit.1", man_page(program));
    for (const GuideCommand& command : program.commands)
        write(folder / ("man1/halfsplit-" + command.name + ".1"), man_page(program, command));
    write(folder / "bash/halfsplit", bash_completion(program));
    write(folder / "zsh/_halfsplit", zsh_completion(program));
    write(folder / "fish/halfsplit.fish", fish_completion(program));
}

}  // namespace

int main(int count, char** arguments) {
    try {
        if (count != 2) throw std::runtime_error("usage: halfsplit_guides FOLDER");
        write_guides(arguments[1]);
        return 0;
    } catch (const std::exception& error) {
        std::cerr << "halfsplit_guides: " << error.what() << '\n';
        return 1;
    }
}
