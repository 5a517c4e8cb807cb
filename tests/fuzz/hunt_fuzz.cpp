// The conversation of `hunt` on the small chain, line by line, in memory; then the job reviewed as it was
// saved.
#include "fuzz/fuzz.hpp"

using namespace halfsplit;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    constexpr std::size_t most_lines = 24;
    std::string typed;
    for (const std::string& line : fuzz::lines_of(fuzz::as_text(data, size), most_lines))
        typed += line + '\n';
    test::FakeFiles files = fuzz::small_files();
    fuzz::run_program({"hunt", "small_chain.json", "--job", "fuzz.job"}, files, typed);
    fuzz::run_program({"review", "fuzz.job"}, files);
    return 0;
}
