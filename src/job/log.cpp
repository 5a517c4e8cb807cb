#include "halfsplit/job/log.hpp"

#include <fmt/format.h>

#include <utility>

namespace halfsplit::job {

namespace {

std::string unused_name(Files& files, const std::string& path) {
    for (int n = 1;; ++n) {
        std::string name = fmt::format("{}.torn-{}", path, n);
        if (!files.exists(name)) return name;
    }
}

}  // namespace

Log::Log(Files& files, Clock& clock, std::string path)
    : clock_(clock), path_(std::move(path)), file_(files.open_for_append(path_)) {
    Contents contents = read_log(file_->read_all(largest_log), path_);
    if (contents.torn) {
        contents.torn->set_aside = unused_name(files, path_);
        file_->set_aside_tail(contents.torn->offset, contents.torn->set_aside);
    }
    if (contents.line_end_missing) {
        file_->append_durably("\n");
        ++contents.length;
    }
    records_ = std::move(contents.records);
    last_checksum_ = std::move(contents.last_checksum);
    torn_ = std::move(contents.torn);
    length_ = contents.length;
}

const Record& Log::append(Event event) {
    std::vector<Event> events;
    events.push_back(std::move(event));
    append(std::move(events));
    return records_.back();
}

void Log::append(std::vector<Event> events) {
    if (events.empty()) return;
    const UnixSeconds now = clock_.now();
    std::vector<Record> added;
    std::string lines;
    std::string checksum = last_checksum_;
    for (Event& event : events) {
        added.push_back({records_.size() + added.size() + 1, now, std::move(event)});
        const std::string line = to_line(added.back(), checksum);
        checksum = checksum_of(line);
        lines += line;
    }
    // Whatever can fail for want of memory fails before the disk is touched.
    const std::size_t needed = records_.size() + added.size();
    if (records_.capacity() < needed) records_.reserve(2 * needed);
    cut_remains();
    try {
        remains_ = true;
        file_->append_durably(lines);
        remains_ = false;
    } catch (const FileError& error) {
        failure_ = error.what();
        try {
            cut_remains();
        } catch (const FileError&) {
            // Tried again before the next append; the first failure is the one worth telling.
        }
        throw;
    }
    for (Record& record : added) records_.push_back(std::move(record));
    last_checksum_ = std::move(checksum);
    length_ += lines.size();
    failure_.clear();
}

void Log::cut_remains() {
    if (!remains_) return;
    file_->cut(length_);
    remains_ = false;
}

}  // namespace halfsplit::job
