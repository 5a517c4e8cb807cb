#include "support/long_job.hpp"

#include "halfsplit/job/log.hpp"

#include <cmath>

namespace halfsplit::test {

namespace {

bool may_come_again(const job::Event& event) {
    return std::holds_alternative<job::Reading>(event.body) ||
           std::holds_alternative<job::CoverChange>(event.body) ||
           std::holds_alternative<job::ClipMoved>(event.body) ||
           std::holds_alternative<job::Recommended>(event.body);
}

job::Event varied(job::Event event, std::size_t round) {
    auto* reading = std::get_if<job::Reading>(&event.body);
    if (reading != nullptr && std::isfinite(reading->value))
        reading->value *= 1 + 0.001 * static_cast<double>(round % 7);
    return event;
}

}  // namespace

std::string long_job(const std::string& log, std::size_t records) {
    const std::vector<job::Record> source = job::read_log(log, "source.job").records;
    std::vector<job::Event> again;
    std::string text, previous;
    std::size_t written = 0;
    const auto put = [&](const job::Event& event) {
        const UnixSeconds time = source.front().time + 60 * static_cast<UnixSeconds>(written);
        const std::string line = job::to_line({++written, time, event}, previous);
        previous = job::checksum_of(line);
        text += line;
    };
    bool begun = false;
    for (const job::Record& record : source) {
        if (may_come_again(record.event)) again.push_back(record.event);
        if (!begun) put(record.event);
        begun = begun || std::holds_alternative<job::SafeState>(record.event.body);
    }
    std::size_t i = 0;
    while (written < records) {
        put(varied(again[i % again.size()], i / again.size()));
        ++i;
    }
    return text;
}

}  // namespace halfsplit::test
