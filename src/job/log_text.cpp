// A log as text: one record to its line and a whole text back to records, without any file.
#include "halfsplit/base/digest.hpp"
#include "halfsplit/base/json_text.hpp"
#include "halfsplit/job/event_json.hpp"
#include "halfsplit/job/log.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "json_members.hpp"

#include <utility>

namespace halfsplit::job {

namespace {

constexpr std::string_view line_start = R"({"sequence":)";
constexpr std::string_view before_checksum = R"(,"checksum":")";
constexpr std::string_view after_checksum = R"("})";
constexpr std::size_t checksum_digits = 16;
constexpr std::size_t ending_size = before_checksum.size() + checksum_digits + after_checksum.size();

std::string chained_checksum(std::string_view previous, std::string_view text) {
    return sha256(std::string(previous).append(text)).substr(0, checksum_digits);
}

// The line, without its line end, split where the checksum begins; no checksum when it does not end as a line
// does.
struct SplitLine {
    std::string covered;  // the text without its checksum member
    std::string_view checksum;
};

SplitLine split(std::string_view line) {
    if (line.size() < ending_size || !line.ends_with(after_checksum)) return {};
    const std::string_view ending = line.substr(line.size() - ending_size);
    if (!ending.starts_with(before_checksum)) return {};
    return {std::string(line.substr(0, line.size() - ending_size)) + "}",
            ending.substr(before_checksum.size(), checksum_digits)};
}

bool checksum_holds(std::string_view line, std::string_view previous) {
    const SplitLine parts = split(line);
    return !parts.checksum.empty() && parts.checksum == chained_checksum(previous, parts.covered);
}

// Could this be what a crash left of the first line? A whole page of a write may be missing, and reads as
// NUL.
bool may_be_torn_first_line(std::string_view tail) {
    for (std::size_t i = 0; i < std::min(tail.size(), line_start.size()); ++i) {
        if (tail[i] != line_start[i] && tail[i] != '\0') return false;
    }
    return true;
}

// A log read line by line; `at_` is the byte where the next line begins.
class LineReader {
  public:
    LineReader(std::string_view text, const std::string& file_name) : text_(text), file_name_(file_name) {}

    Contents read() {
        while (at_ < text_.size()) {
            const std::size_t end = text_.find('\n', at_);
            if (end == std::string_view::npos) {
                take_tail(text_.substr(at_));
                break;
            }
            take_line(text_.substr(at_, end - at_));
            at_ = end + 1;
            contents_.length = at_;
        }
        return std::move(contents_);
    }

  private:
    void take_line(std::string_view line) {
        if (!checksum_holds(line, contents_.last_checksum)) stop(what_is_wrong_with(line));
        contents_.records.push_back(record_in(line));
        contents_.last_checksum = split(line).checksum;
    }

    void take_tail(std::string_view tail) {
        if (checksum_holds(tail, contents_.last_checksum)) {
            take_line(tail);
            contents_.line_end_missing = true;
            contents_.length = text_.size();
            return;
        }
        if (contents_.records.empty() && !may_be_torn_first_line(tail)) stop(not_a_log);
        contents_.torn = Torn{at_, tail.size(), {}};
    }

    // The checksum holds, so the line is as it was written; whether this version can read it is another
    // matter.
    Record record_in(std::string_view line) {
        try {
            const nlohmann::json parsed = parse_json(line, file_name_);
            Members from(parsed, "record");
            Record record;
            record.sequence = from.whole("sequence");
            const std::optional<UnixSeconds> time = parse_time(from.text("time"));
            if (!time) from.refuse("time", "is not a time like 2026-03-01T07:45:00Z");
            record.time = *time;
            record.event = event_from_json(from.any("event"));
            (void)from.text("checksum");
            from.nothing_else();
            if (record.sequence != contents_.records.size() + 1) stop(wrong_sequence(record.sequence));
            return record;
        } catch (const std::invalid_argument& error) {
            stop(error.what());
        } catch (const InputError& error) {
            stop(error.findings().front().message);
        }
    }

    std::string wrong_sequence(Sequence found) const {
        return fmt::format("the record has the number {} where {} should follow", found,
                           contents_.records.size() + 1);
    }

    std::string what_is_wrong_with(std::string_view line) const {
        if (contents_.records.empty() && !line.starts_with(line_start)) return not_a_log;
        if (split(line).checksum.empty()) return "the line does not end in a checksum as a record does";
        return "the checksum does not fit: this line was changed, or one before it was taken out or put in";
    }

    [[noreturn]] void stop(const std::string& what_is_wrong) const {
        throw DamagedLog(file_name_, contents_.records.size() + 1, at_, what_is_wrong);
    }

    static constexpr const char* not_a_log =
        "this does not begin as a job log does; check that it is the file you meant";

    std::string_view text_;
    const std::string& file_name_;
    std::size_t at_ = 0;
    Contents contents_;
};

std::string advice(std::size_t line) {
    if (line == 1) return "Nothing was changed. Keep the file as it is: it may be evidence.";
    return fmt::format(
        "Nothing was changed. Keep the file as it is: it is evidence. To go on from what stands before the "
        "damage, make "
        "a copy that holds only the first {} and open the copy.",
        line == 2 ? "line" : fmt::format("{} lines", line - 1));
}

}  // namespace

DamagedLog::DamagedLog(const std::string& file, std::size_t line, std::uint64_t byte,
                       const std::string& what_is_wrong)
    : std::runtime_error(
          fmt::format("{}:{}: damaged at byte {}: {}. {}", file, line, byte, what_is_wrong, advice(line))),
      line_(line),
      byte_(byte) {}

std::string to_line(const Record& record, std::string_view previous_checksum) {
    const std::string covered = fmt::format(R"({}{},"time":"{}","event":{}}})", line_start, record.sequence,
                                            format_time(record.time), to_json(record.event).dump());
    const std::string checksum = chained_checksum(previous_checksum, covered);
    return covered.substr(0, covered.size() - 1) + std::string(before_checksum) + checksum +
           std::string(after_checksum) + "\n";
}

std::string checksum_of(std::string_view line) {
    if (line.ends_with('\n')) line.remove_suffix(1);
    return std::string(split(line).checksum);
}

Contents read_log(std::string_view text, const std::string& file_name) {
    return LineReader(text, file_name).read();
}

}  // namespace halfsplit::job
