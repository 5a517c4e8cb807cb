// A matrix of faults against tests: read, and a small one surveyed.
#include "halfsplit/matrix/matrix.hpp"

#include "fuzz/fuzz.hpp"
#include "fuzz/json_mutator.hpp"

using namespace halfsplit;

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t most,
                                               unsigned seed) {
    return fuzz::mutate_json(data, size, most, seed);
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(fuzz::as_text(data, size));
    const matrix::ReadResult read = matrix::read_matrix(text, "fuzz.json");
    fuzz::require(read.matrix.has_value() == read.findings.empty(), "a matrix, or findings that say why");
    if (!read.matrix) return 0;
    test::FakeFiles files;
    files.put("fuzz.json", text);
    fuzz::run_program({"survey", "--matrix", "fuzz.json"}, files);
    return 0;
}
