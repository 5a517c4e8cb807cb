// A whole job's log of the demo, changed by every single bit and cut at every byte. Every run takes a sample;
// HALFSPLIT_EVERY_BIT set takes them all (some minutes).
#include "halfsplit/job/log.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"

#include <cstdlib>

using namespace halfsplit;
using namespace halfsplit::job;

namespace {

const std::string& demo_log() {
    static const std::string text = test::read_file("data/demo/jobs/minibus-lift-silent.job");
    return text;
}

const std::vector<Record>& demo_records() {
    static const std::vector<Record> records = read_log(demo_log(), "demo.job").records;
    return records;
}

// From one place to the next; a prime, so that all bits of a byte have their turn.
std::size_t stride(std::size_t of_sample) {
    return std::getenv("HALFSPLIT_EVERY_BIT") != nullptr ? 1 : of_sample;
}

bool begins_with(const std::vector<Record>& whole, const std::vector<Record>& part) {
    return part.size() <= whole.size() && std::equal(part.begin(), part.end(), whole.begin());
}

}  // namespace

TEST_CASE("a single bit of a demo's log that flips is found") {
    const std::size_t bits = demo_log().size() * 8;
    std::size_t damaged = 0, torn = 0;
    for (std::size_t bit = 0; bit < bits; bit += stride(1009)) {
        std::string changed = demo_log();
        changed[bit / 8] =
            static_cast<char>(static_cast<unsigned char>(changed[bit / 8]) ^ (1U << (bit % 8)));
        INFO("bit " << bit % 8 << " of byte " << bit / 8);
        try {
            const Contents contents = read_log(changed, "demo.job");
            // The line end of the last record only: its line counts as torn.
            REQUIRE(bit / 8 == demo_log().size() - 1);
            REQUIRE(contents.torn);
            REQUIRE(begins_with(demo_records(), contents.records));
            ++torn;
        } catch (const DamagedLog&) {
            ++damaged;
        }
    }
    REQUIRE(damaged > 100);
    if (stride(0) == 1) WARN(damaged << " flips found as damage, " << torn << " as a torn last line");
}

TEST_CASE("a demo's log cut at any byte keeps every whole record") {
    std::size_t cuts = 0;
    for (std::size_t cut = 0; cut <= demo_log().size(); cut += stride(101)) {
        INFO("cut at byte " << cut);
        const Contents contents = read_log(demo_log().substr(0, cut), "demo.job");
        const auto ends = static_cast<std::size_t>(
            std::count(demo_log().begin(), demo_log().begin() + static_cast<long>(cut), '\n'));
        REQUIRE(begins_with(demo_records(), contents.records));
        REQUIRE(contents.records.size() == ends + (contents.line_end_missing ? 1 : 0));
        ++cuts;
    }
    REQUIRE(cuts > 100);
    if (stride(0) == 1) WARN(cuts << " cuts");
}
