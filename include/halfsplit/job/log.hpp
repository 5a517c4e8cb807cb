// The append-only job log: JSON lines, one record per line.
//
// The promise: when append() returns, the record is on disk (one write, then a data sync; the folder is synced when the
// file is created). One writer at a time (an exclusive lock). What is read on opening is synced before it is trusted.
// A torn last line - the write that a crash cut short, never acknowledged - is set aside in a file of its own and told;
// damage further up stops with line and byte and changes nothing. A log is never deleted or rewritten.
#pragma once

#include "halfsplit/base/clock.hpp"
#include "halfsplit/base/files.hpp"
#include "halfsplit/job/event.hpp"

#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::job {

// One record as its line, line end included. The checksum covers the line and the checksum of the line before it.
std::string to_line(const Record& record, std::string_view previous_checksum);

struct Torn {
    std::uint64_t offset = 0, bytes = 0;
    std::string set_aside;  // the file it was moved to; empty when only read
};

struct Contents {
    std::vector<Record> records;
    std::string last_checksum;
    std::optional<Torn> torn;
};

// Thrown for damage: `line` and `byte` (offset from the start of the file) of the first bad record.
class DamagedLog : public std::runtime_error {
  public:
    DamagedLog(const std::string& file, std::size_t line, std::uint64_t byte, const std::string& what_is_wrong);
    std::size_t line() const { return line_; }
    std::uint64_t byte() const { return byte_; }

  private:
    std::size_t line_;
    std::uint64_t byte_;
};

// Reads without writing (for review): a torn tail is told but left where it is. Linear in the text.
Contents read_log(std::string_view text, const std::string& file_name);

class Log {
  public:
    // Opens or creates. Throws FileError (locked, folder, no permission) or DamagedLog.
    Log(Files& files, Clock& clock, std::string path);

    const std::vector<Record>& records() const { return records_; }
    const std::optional<Torn>& torn() const { return torn_; }

    // On disk when it returns. Throws FileError when it is not; the record is then not part of records().
    const Record& append(Event event);
    // Several records in one write and one sync: all or, after a crash, a torn tail.
    void append(std::vector<Event> events);

  private:
    Clock& clock_;
    std::unique_ptr<AppendFile> file_;
    std::vector<Record> records_;
    std::string last_checksum_;
    std::optional<Torn> torn_;
};

}  // namespace halfsplit::job
