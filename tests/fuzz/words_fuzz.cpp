// What people type, a line an event, on the small chain: understood or refused with a finding; told back;
// kept in the log and read from it as the same event.
#include "halfsplit/job/event_json.hpp"
#include "halfsplit/job/implied.hpp"
#include "halfsplit/job/log.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/job/words.hpp"

#include <nlohmann/json.hpp>

#include "fuzz/fuzz.hpp"
#include "support/small_chain.hpp"

using namespace halfsplit;

namespace {

constexpr std::size_t most_lines = 40;

void take(job::Event event, std::vector<job::Record>& records) {
    for (job::Event& implied : job::with_implied(std::move(event), records, test::small_chain())) {
        const nlohmann::json json = job::to_json(implied);
        fuzz::require(job::to_json(job::event_from_json(json)) == json, "an event is read as it was written");
        const std::string words = job::in_words(implied, test::small_chain());
        fuzz::require(!words.empty() && words.find('\n') == std::string::npos,
                      "an event in one line of words");
        const job::Sequence sequence = records.size() + 1;
        records.push_back(
            {sequence, static_cast<UnixSeconds>(1'772'351'100 + sequence * 60), std::move(implied)});
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    std::vector<job::Record> records;
    job::Opened opened;
    opened.network = "main";
    records.push_back({1, 1'772'351'100, {opened}});
    const job::Expectation awaited{"X1.a:4", "DS:6", "X1", job::Quantity::Ohm, false};
    for (const std::string& line : fuzz::lines_of(fuzz::as_text(data, size), most_lines)) {
        const job::State state = job::replay(records);
        try {
            take(job::parse_event(fuzz::words_of(line), test::small_chain(), state, awaited), records);
        } catch (const InputError& error) {
            fuzz::require(!error.findings().empty(), "a refusal that says why");
        }
    }
    (void)job::problems(records);
    return 0;
}
