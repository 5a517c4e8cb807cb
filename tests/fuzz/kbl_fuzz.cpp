// A harness list (KBL): read, its signals listed, and every likely pair of them and the first of its signals
// drafted.
#include "halfsplit/draft/from_kbl.hpp"

#include "fuzz/fuzz.hpp"
#include "fuzz/wire_data.hpp"

using namespace halfsplit;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text = fuzz::as_text(data, size);
    (void)draft::looks_like_xml(text);
    fuzz::draft_networks(draft::read_kbl(text, "fuzz.kbl"), text);
    return 0;
}
