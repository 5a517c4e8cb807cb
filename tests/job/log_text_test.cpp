// The log as text: what is read back, what is torn, what is damaged.
#include "halfsplit/base/digest.hpp"
#include "halfsplit/job/log.hpp"

#include "support/catch.hpp"
#include "support/random_event.hpp"

using namespace halfsplit;
using namespace halfsplit::job;

namespace {

constexpr UnixSeconds start = 1'772'351'100;  // 2026-03-01T07:45:00Z

std::vector<Record> small_job() {
    const std::vector<Event> events{
        {Opened{"van.json", "{\n}", "0f", "main", "0.1.0"}, {}},
        {Intake{"no crank", "new step light", {"wet"}, {"M1"}}, {}},
        {Reading{"X3.a:4", "DS:6", Quantity::Ohm, Outcome::Value, 0.4, false}, {}},
        {CoverChange{"kick", true, true}, {}},
        {Remark{"t\xC3\xBCr\nwet"}, 3}};
    std::vector<Record> records;
    records.reserve(events.size());
    for (const Event& event : events)
        records.push_back({records.size() + 1, start + 60 * static_cast<UnixSeconds>(records.size()), event});
    return records;
}

std::vector<std::string> lines_of(const std::vector<Record>& records) {
    std::vector<std::string> lines;
    std::string checksum;
    for (const Record& record : records) {
        lines.push_back(to_line(record, checksum));
        checksum = checksum_of(lines.back());
    }
    return lines;
}

std::string joined(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines) text += line;
    return text;
}

std::string text_of(const std::vector<Record>& records) {
    return joined(lines_of(records));
}

DamagedLog damage_in(const std::string& text) {
    try {
        (void)read_log(text, "job.log");
    } catch (const DamagedLog& damage) {
        return damage;
    }
    FAIL("the log was taken for sound");
    throw std::logic_error("not reached");
}

bool says(const std::exception& error, const std::string& words) {
    return std::string(error.what()).find(words) != std::string::npos;
}

// The rule of the format's document, stated once more: what makes any text a line of a log.
std::string sealed(const std::string& without_checksum, const std::string& previous) {
    const std::string checksum = sha256(previous + without_checksum).substr(0, 16);
    return without_checksum.substr(0, without_checksum.size() - 1) + ",\"checksum\":\"" + checksum + "\"}\n";
}

}  // namespace

TEST_CASE("a line is what the format's document says") {
    const Record record{1, start, {Remark{"wet"}, {}}};
    CHECK(
        to_line(record, "") ==
        sealed(R"({"sequence":1,"time":"2026-03-01T07:45:00Z","event":{"kind":"remark","text":"wet"}})", ""));
    CHECK(to_line(record, "0123456789abcdef") ==
          sealed(R"({"sequence":1,"time":"2026-03-01T07:45:00Z","event":{"kind":"remark","text":"wet"}})",
                 "0123456789abcdef"));
}

TEST_CASE("what was written is read back") {
    const std::vector<Record> records = small_job();
    const std::string text = text_of(records);
    const Contents contents = read_log(text, "job.log");
    CHECK(contents.records == records);
    CHECK(contents.last_checksum == checksum_of(lines_of(records).back()));
    CHECK_FALSE(contents.torn);
    CHECK_FALSE(contents.line_end_missing);
    CHECK(contents.length == text.size());
}

TEST_CASE("an empty log is sound and holds nothing") {
    const Contents contents = read_log("", "job.log");
    CHECK(contents.records.empty());
    CHECK_FALSE(contents.torn);
}

TEST_CASE("a log cut at any byte keeps every whole record and tells the rest as torn") {
    const std::vector<Record> records = small_job();
    const std::vector<std::string> lines = lines_of(records);
    const std::string text = joined(lines);
    std::size_t whole = 0, end_of_whole = 0;
    for (std::size_t cut = 0; cut <= text.size(); ++cut) {
        // A line is whole when only its line end is missing.
        while (whole < lines.size() && end_of_whole + lines[whole].size() - 1 <= cut)
            end_of_whole += lines[whole++].size();
        INFO("cut at byte " << cut);
        const Contents contents = read_log(text.substr(0, cut), "job.log");
        REQUIRE(contents.records ==
                std::vector<Record>(records.begin(), records.begin() + static_cast<long>(whole)));
        const bool line_end_missing = cut + 1 == end_of_whole;
        REQUIRE(contents.line_end_missing == line_end_missing);
        const bool nothing_left = cut == end_of_whole || line_end_missing;
        REQUIRE(contents.torn.has_value() == !nothing_left);
        if (!contents.torn) continue;
        REQUIRE(contents.torn->offset == end_of_whole);
        REQUIRE(contents.torn->bytes == cut - end_of_whole);
        REQUIRE(contents.length == end_of_whole);
    }
}

TEST_CASE("zero bytes that a crash left behind are a torn tail") {
    const std::vector<Record> records = small_job();
    const std::string text = text_of(records);
    for (const std::string& tail : {std::string(1, '\0'), std::string(5000, '\0'),
                                    "{\"seq" + std::string(9, '\0'), std::string(9, '\0') + "\"x\"}"}) {
        const Contents contents = read_log(text + tail, "job.log");
        CHECK(contents.records == records);
        REQUIRE(contents.torn);
        CHECK(contents.torn->offset == text.size());
        CHECK(contents.torn->bytes == tail.size());
    }
    const Contents only_zeros = read_log(std::string(100, '\0'), "job.log");
    CHECK(only_zeros.records.empty());
    CHECK(only_zeros.torn);
}

TEST_CASE("a byte changed anywhere is never accepted") {
    const std::vector<Record> records = small_job();
    const std::vector<std::string> lines = lines_of(records);
    const std::string text = joined(lines);
    for (std::size_t at = 0; at < text.size(); ++at) {
        for (const unsigned flip : {0x01U, 0x20U, 0x80U, 0xFFU}) {
            std::string changed = text;
            changed[at] = static_cast<char>(static_cast<unsigned char>(changed[at]) ^ flip);
            INFO("byte " << at << " changed by " << flip);
            try {
                const Contents contents = read_log(changed, "job.log");
                // Only the last line end can go without damage: the record is whole, or its line is torn.
                REQUIRE(at == text.size() - 1);
                REQUIRE(contents.torn);
                REQUIRE(contents.records.size() == records.size() - 1);
            } catch (const DamagedLog& damage) {
                REQUIRE(damage.line() <= records.size());
                REQUIRE(damage.byte() <= at);
            }
        }
    }
}

TEST_CASE("damage is told with file, line, byte and what to do") {
    std::vector<std::string> lines = lines_of(small_job());
    const std::size_t third = lines[0].size() + lines[1].size();
    lines[2].replace(lines[2].find("0.4"), 3, "0.5");
    const DamagedLog damage = damage_in(joined(lines));
    CHECK(damage.line() == 3);
    CHECK(damage.byte() == third);
    CHECK(std::string(damage.what()) == "job.log:3: damaged at byte " + std::to_string(third) +
                                            ": the checksum does not fit: this line was changed, or one "
                                            "before it was taken out or put in. Nothing was "
                                            "changed. Keep the file as it is: it is evidence. To go on from "
                                            "what stands before the damage, make a copy "
                                            "that holds only the first 2 lines and open the copy.");
}

TEST_CASE("a line taken out, put in, doubled or moved is damage") {
    const std::vector<std::string> lines = lines_of(small_job());
    CHECK(damage_in(lines[0] + lines[2] + lines[3] + lines[4]).line() == 2);
    CHECK(damage_in(lines[1] + lines[2]).line() == 1);
    CHECK(damage_in(lines[0] + lines[1] + lines[1] + lines[2]).line() == 3);
    CHECK(damage_in(lines[0] + lines[2] + lines[1]).line() == 2);
    CHECK(damage_in(lines[0] + "\n" + lines[1]).line() == 2);
    CHECK(damage_in(lines[0] + "{}\n").line() == 2);
}

TEST_CASE("a last line that is bad but ended is damage, not a torn tail") {
    const std::vector<std::string> lines = lines_of(small_job());
    CHECK(damage_in(lines[0] + lines[1].substr(0, 40) + "\n").line() == 2);
    CHECK(damage_in(lines[0] + std::string(8, '\0') + "\n").line() == 2);
}

TEST_CASE("a gap in the numbers is damage even under good checksums") {
    const std::string first = to_line({1, start, {Remark{"a"}, {}}}, "");
    const std::string third = to_line({3, start, {Remark{"b"}, {}}}, checksum_of(first));
    const DamagedLog damage = damage_in(first + third);
    CHECK(damage.line() == 2);
    CHECK(says(damage, "the record has the number 3 where 2 should follow"));
}

TEST_CASE("a line of a later version is told in words and not taken for torn") {
    const std::string line =
        sealed(R"({"sequence":1,"time":"2026-03-01T07:45:00Z","event":{"kind":"danced"}})", "");
    CHECK(says(damage_in(line), "\"danced\", which is not known to this version"));
    CHECK(says(damage_in(line.substr(0, line.size() - 1)), "not known to this version"));
}

TEST_CASE("another file is not taken for a log, with or without a line end") {
    for (const char* text :
         {"{ \"format\": \"halfsplit-harness\" }\n", "{ \"format\": \"halfsplit-harness\" }", "x",
          "dear diary\n", "{\"sequence\";"}) {
        INFO(text);
        const DamagedLog damage = damage_in(text);
        CHECK(damage.line() == 1);
        CHECK(damage.byte() == 0);
        CHECK(says(damage, "does not begin as a job log does"));
    }
}

TEST_CASE("random bytes never crash the reader") {
    test::RandomEvents random(4);
    const std::string text = text_of(small_job());
    for (int i = 0; i < 4000; ++i) {
        std::string changed = i % 4 == 0 ? "" : text;
        for (std::size_t changes = 1 + random.number(8); changes > 0; --changes) {
            const std::size_t at = random.number(changed.size());
            switch (random.number(3)) {
                case 0:
                    changed.insert(at, random.text());
                    break;
                case 1:
                    changed.erase(at, random.number(40));
                    break;
                case 2:
                    changed.insert(at, changed.substr(random.number(changed.size()), random.number(80)));
                    break;
                default:
                    changed.insert(at, 1, static_cast<char>(random.number(255)));
            }
        }
        try {
            const Contents contents = read_log(changed, "job.log");
            // What is accepted is the start of what was written.
            REQUIRE(text.compare(0, contents.length, changed, 0, contents.length) == 0);
        } catch (const DamagedLog& damage) {
            REQUIRE(damage.byte() <= changed.size());
        }
    }
}

TEST_CASE("a line with a good checksum and anything in it is read or refused, never more") {
    test::RandomEvents random(5);
    std::size_t refused = 0;
    for (int i = 0; i < 4000; ++i) {
        const std::string line = to_line({1, start, random.any()}, "");
        std::string inner =
            line.substr(0, line.size() - 1 - std::string(R"(,"checksum":"0123456789abcdef"})").size());
        const std::size_t from = 13;  // behind {"sequence":
        for (std::size_t changes = random.number(3); changes > 0; --changes) {
            const std::size_t at = from + random.number(inner.size() - from);
            inner.replace(at, random.number(6),
                          random.number(1) == 0 ? random.text() : std::string(R"(":[{"a":1e999)"));
        }
        inner.erase(std::remove(inner.begin(), inner.end(), '\n'), inner.end());
        try {
            const Contents contents = read_log(sealed(inner + "}", ""), "job.log");
            REQUIRE(contents.records.size() == 1);
        } catch (const DamagedLog&) {
            ++refused;
        }
    }
    CHECK(refused > 400);
    CHECK(refused < 3600);
}

TEST_CASE("nesting without end is refused, not followed") {
    const std::string deep(200'000, '[');
    CHECK(damage_in(sealed(R"({"sequence":1,"time":"2026-03-01T07:45:00Z","event":)" + deep + "}", ""))
              .line() == 1);
}
