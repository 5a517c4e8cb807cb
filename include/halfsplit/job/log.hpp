// The append-only job log: JSON lines, one record per line.
//
// A line is {"sequence":1,"time":"2026-03-01T07:45:00Z","event":{...},"checksum":"0123456789abcdef"} and a
// line end; see docs/reference/job-format.md. The checksum is the first 16 hexadecimal digits of SHA-256 over
// the checksum of the line before (nothing, for the first line) and the text of the line without its checksum
// member.
//
// The promise: when append() returns, the record is on disk (one write, then a data sync; the folder is
// synced when the file is created). One writer at a time (an exclusive lock). What is read on opening is
// synced before it is trusted. A torn last line - the write that a crash cut short, never acknowledged - is
// set aside in a file of its own and told; damage further up stops with line and byte and changes nothing. A
// log is never deleted or rewritten.
#pragma once

#include "halfsplit/base/clock.hpp"
#include "halfsplit/base/files.hpp"
#include "halfsplit/job/event.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::job {

// Larger logs are refused unread. A day's job is some tens of kilobytes; nothing that a person typed comes
// near this.
inline constexpr std::uint64_t largest_log = 256ULL << 20U;

// One record as its line, line end included. Throws std::invalid_argument for an event that JSON cannot hold.
std::string to_line(const Record& record, std::string_view previous_checksum);

// The checksum that a line from to_line() ends in, which the next line builds on.
std::string checksum_of(std::string_view line);

struct Torn {
    std::uint64_t offset = 0, bytes = 0;
    std::string set_aside;  // the file it was moved to; empty when only read
};

struct Contents {
    std::vector<Record> records;
    std::string last_checksum;
    std::optional<Torn> torn;
    bool line_end_missing = false;  // the last record is whole but for its line end
    std::uint64_t length = 0;       // bytes up to the end of the last record
};

// Thrown for damage: `line` and `byte` (offset from the start of the file) of the first bad record.
class DamagedLog : public std::runtime_error {
  public:
    DamagedLog(const std::string& file, std::size_t line, std::uint64_t byte,
               const std::string& what_is_wrong);
    std::size_t line() const { return line_; }
    std::uint64_t byte() const { return byte_; }

  private:
    std::size_t line_;
    std::uint64_t byte_;
};

// Reads without writing (for review): a torn tail is told but left where it is. Linear in the text. Throws
// DamagedLog.
//   torn       a last line without a line end, or trailing NUL bytes, whose checksum does not hold
//   accepted   a last line that is whole and lacks only its line end
//   damaged    every other line that is not a record, breaks the chain of checksums or the sequence; and a
//              text that does not even begin as a job log does
Contents read_log(std::string_view text, const std::string& file_name);

class Log {
  public:
    // Opens or creates. Throws FileError (locked, folder, no permission, larger than `largest_log`) or
    // DamagedLog; neither changes anything. A torn tail is set aside in `PATH.torn-N`; a missing last line
    // end is added.
    Log(Files& files, Clock& clock, std::string path);

    const std::vector<Record>& records() const { return records_; }
    const std::optional<Torn>& torn() const { return torn_; }

    // On disk when it returns. Throws FileError when it is not; the record is then not part of records(), and
    // failure() tells why. What a failed append left in the file is cut off again, at once or, when that
    // fails too, before the next append, which is refused until it succeeds: nothing is ever written behind
    // half a line. Throws std::invalid_argument, and writes nothing, for an event that JSON cannot hold.
    const Record& append(Event event);
    // Several records in one write and one sync: all or, after a crash, a torn tail (whole lines before it
    // count).
    void append(std::vector<Event> events);

    // Why the last append was not acknowledged; empty when it was.
    const std::string& failure() const { return failure_; }

  private:
    void cut_remains();

    Clock& clock_;
    std::string path_;
    std::unique_ptr<AppendFile> file_;
    std::vector<Record> records_;
    std::string last_checksum_;
    std::optional<Torn> torn_;
    std::string failure_;
    std::uint64_t length_ = 0;  // bytes acknowledged
    bool remains_ = false;      // something unacknowledged may stand behind them
};

}  // namespace halfsplit::job
