// The conversation of `hunt` on the small chain, line by line, in memory; then the job reviewed as it was
// saved. With "new" as first line from the very beginning, else from where readings are next. Each step is
// planned, which takes tenths of a second under the sanitizers: few lines.
#include "fuzz/fuzz.hpp"

using namespace halfsplit;

namespace {

constexpr const char* job = "fuzz.job";

std::string begun_job() {
    test::FakeFiles files = fuzz::small_files();
    for (const char* entry : {"intake complaint=dead conditions=wet", "answers silent M1",
                              "safe ignition=off bus=asleep battery=off waited=10"}) {
        std::vector<std::string> arguments{"note", "small_chain.json", "--job", job};
        for (std::string& word : fuzz::words_of(entry)) arguments.push_back(std::move(word));
        fuzz::run_program(arguments, files);
    }
    return files.text_of(job);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    constexpr std::size_t most_lines = 8;
    static const std::string begun = begun_job();
    std::vector<std::string> lines = fuzz::lines_of(fuzz::as_text(data, size), most_lines);
    test::FakeFiles files = fuzz::small_files();
    if (lines.empty() || lines.front() != "new") {
        files.put(job, begun);
    } else {
        lines.erase(lines.begin());
    }
    std::string typed;
    for (const std::string& line : lines) typed += line + '\n';
    fuzz::run_program({"hunt", "small_chain.json", "--job", job}, files, typed);
    fuzz::run_program({"review", job}, files);
    return 0;
}
