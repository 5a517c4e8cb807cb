// A harness file: read and checked; a sound one is drawn and written as a wire sheet; `check` mends and
// tells.
#include "halfsplit/draft/wire_sheet.hpp"
#include "halfsplit/drawing/drawing.hpp"
#include "halfsplit/harness/read.hpp"

#include "fuzz/fuzz.hpp"
#include "fuzz/json_mutator.hpp"

#include <algorithm>

using namespace halfsplit;

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t most,
                                               unsigned seed) {
    return fuzz::mutate_json(data, size, most, seed);
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(fuzz::as_text(data, size));
    const harness::ReadResult read = harness::read_harness(text, "fuzz.json");
    fuzz::require(read.harness.has_value() != any_error(read.findings), "a harness, or errors that say why");
    (void)to_text(read.findings);
    test::FakeFiles files;
    if (read.harness) {
        for (harness::Index network = 0; network < read.harness->networks.size(); ++network) {
            const drawing::Drawing drawing(*read.harness, network);
            (void)drawing.svg({});
            (void)drawing.text({}, 40);
        }
        (void)draft::write_sheet(text, "fuzz.json", files);
    }
    const bool may_be_mended =
        std::any_of(read.findings.begin(), read.findings.end(),
                    [](const Finding& finding) { return finding.mend.kind != Mend::Kind::None; });
    if (!may_be_mended) return 0;
    files.put("fuzz.json", text);
    fuzz::run_program({"check", "fuzz.json", "--fix", "--format", "sarif", "-j", "1"}, files);
    return 0;
}
