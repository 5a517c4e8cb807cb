// The command line, one argument a line, on files in memory; what follows an empty line is standard input,
// and what is typed at prompts.
#include "fuzz/fuzz.hpp"

#include <algorithm>

using namespace halfsplit;

namespace {

// Plays as many hunts as there are faults: minutes under the sanitizers, and nothing that another command has
// not.
bool takes_minutes(const std::vector<std::string>& arguments) {
    return std::any_of(arguments.begin(), arguments.end(), [](const std::string& argument) {
        return argument.rfind("--every", 0) == 0 || argument.rfind("-j", 0) == 0;
    });
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    constexpr std::size_t most_arguments = 16;
    std::string_view text = fuzz::as_text(data, size);
    const std::size_t end = std::min(text.find("\n\n"), text.size());
    const std::vector<std::string> arguments = fuzz::lines_of(text.substr(0, end), most_arguments);
    text.remove_prefix(std::min(end + 2, text.size()));
    if (takes_minutes(arguments)) return -1;
    test::FakeFiles files = fuzz::small_files();
    files.input = std::string(text);
    fuzz::run_program(arguments, files, text);
    return 0;
}
