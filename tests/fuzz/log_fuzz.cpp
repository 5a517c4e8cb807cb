// A job log: read, replayed, and reviewed as text, as data and as a page. As it stands it seldom gets behind
// the checksums, so it is also read with these made right. A text that is no log is taken for events, one a
// line as JSON, of a job on the small chain.
#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/base/digest.hpp"
#include "halfsplit/base/json_text.hpp"
#include "halfsplit/job/event_json.hpp"
#include "halfsplit/job/log.hpp"
#include "halfsplit/job/state.hpp"
#include "halfsplit/report/review.hpp"

#include <nlohmann/json.hpp>

#include "fuzz/fuzz.hpp"
#include "fuzz/json_mutator.hpp"
#include "support/files_of_tests.hpp"

#include <algorithm>
#include <cstring>

using namespace halfsplit;

namespace {

constexpr std::string_view log_start = R"({"sequence":)";
constexpr std::string_view before_checksum = R"(,"checksum":")";
constexpr std::size_t most_lines = 40;

std::string with_checksum(const std::string& covered, std::string& previous) {
    previous = sha256(previous + covered).substr(0, 16);
    return covered.substr(0, covered.size() - 1) + std::string(before_checksum) + previous + "\"}\n";
}

// The log with every checksum as it should be.
std::string mended(const std::vector<std::string>& lines) {
    std::string log;
    std::string previous;
    for (const std::string& line : lines)
        log += with_checksum(line.substr(0, line.rfind(before_checksum)) + "}", previous);
    return log;
}

std::string opening_record() {
    static const std::string text = test::read_file("tests/data/small_chain.json");
    job::Opened opened;
    opened.harness_file = "small_chain.json";
    opened.harness_text = text;
    opened.harness_sha256 = sha256(text);
    opened.network = "main";
    opened.program_version = "0";
    return job::to_line({1, 1'772'351'100, {opened}}, "");
}

// What is no event would end the log there, and everything behind it would go unread.
bool is_event(const std::string& line) {
    try {
        (void)job::event_from_json(parse_json(line, "line"));
        return true;
    } catch (const std::invalid_argument&) {
    } catch (const InputError&) {
    }
    return false;
}

std::string log_of_events(const std::vector<std::string>& events) {
    static const std::string opening = opening_record();
    std::string log = opening;
    std::string previous = job::checksum_of(opening);
    std::size_t sequence = 2;
    for (const std::string& event : events) {
        if (!is_event(event)) continue;
        const std::string number = std::to_string(sequence);
        const std::string minute = std::to_string(10 + sequence);
        log += with_checksum(std::string(log_start) + number + R"(,"time":"2026-03-01T08:)" + minute +
                                 R"(:00Z","event":)" + event + "}",
                             previous);
        ++sequence;
    }
    return log;
}

void review(std::string_view log) {
    try {
        const job::Contents contents = job::read_log(log, "fuzz.job");
        const job::State state = job::replay(contents.records);
        const std::vector<double> minutes = job::minutes_by_record(contents.records);
        fuzz::require(minutes.size() == contents.records.size(), "minutes for every record");
        (void)job::problems(contents.records);
        (void)job::last_undoable(contents.records);
        const advice::Subject subject = advice::subject_of(contents.records);
        const advice::Review review = advice::retrospect(contents, subject);
        (void)report::review_text(review, 40);
        (void)report::review_json(review).dump();
        (void)report::review_html(review, subject.harness, subject.network);
    } catch (const job::DamagedLog&) {
    } catch (const InputError&) {
    }
}

}  // namespace

// One line is changed, as JSON.
extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t most,
                                               unsigned seed) {
    std::vector<std::string> lines = fuzz::lines_of(fuzz::as_text(data, size), most_lines);
    if (lines.empty()) return fuzz::mutate_json(data, size, most, 0);
    std::string& line = lines[seed / 8 % lines.size()];
    if (seed % 8 == 1) {
        lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(seed / 512 % lines.size()),
                     std::string(line));
    } else if (seed % 8 == 2) {
        lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(seed / 8 % lines.size()));
    } else {
        line.resize(most);
        auto* bytes = reinterpret_cast<std::uint8_t*>(line.data());
        line.resize(fuzz::mutate_json(bytes, std::strlen(line.c_str()), most, seed));
        std::replace(line.begin(), line.end(), '\n', ' ');
    }
    std::string text;
    for (const std::string& kept : lines) text += kept + '\n';
    if (text.size() > most) text.resize(most);
    std::memcpy(data, text.data(), text.size());
    return text.size();
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text = fuzz::as_text(data, size);
    if (text.substr(0, log_start.size()) != log_start) {
        review(log_of_events(fuzz::lines_of(text, most_lines)));
        return 0;
    }
    review(text);
    review(mended(fuzz::lines_of(text, most_lines)));
    return 0;
}
