// A wire sheet: drafted as a whole, and read as one that is still being written. What it drafts is sound, and
// its own sheet drafts again.
#include "halfsplit/draft/unfinished.hpp"
#include "halfsplit/draft/wire_sheet.hpp"
#include "halfsplit/harness/read.hpp"

#include "fuzz/fuzz.hpp"

using namespace halfsplit;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text = fuzz::as_text(data, size);
    test::FakeFiles files;
    (void)draft::read_unfinished(text, "fuzz.wires", files);
    const draft::Drafted drafted = draft::draft_sheet(text, "fuzz.wires", files);
    (void)to_text(drafted.findings);
    fuzz::require(drafted.json.empty() == any_error(drafted.findings),
                  "a harness file, or errors that say why");
    if (drafted.json.empty()) return 0;
    fuzz::require(harness::read_harness(drafted.json, "fuzz.json").harness.has_value(),
                  "what is drafted is sound");
    const draft::WrittenSheet sheet = draft::write_sheet(drafted.json, "fuzz.json", files);
    fuzz::require(!sheet.text.empty(), "what is drafted has a sheet");
    fuzz::require(!draft::draft_sheet(sheet.text, "again.wires", files).json.empty(),
                  "that sheet drafts again");
    return 0;
}
