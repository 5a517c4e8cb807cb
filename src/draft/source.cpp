#include "draft/source.hpp"

#include "base/places.hpp"

#include <charconv>
#include <utility>

namespace halfsplit::draft {

std::string at_offset(std::size_t offset) {
    return '@' + std::to_string(offset);
}

SourceOrigins::SourceOrigins(std::string_view text, std::string file_name)
    : text_(text), file_name_(std::move(file_name)) {}

void SourceOrigins::place(std::string pointer, std::size_t offset) {
    places_[std::move(pointer)] = offset;
}

std::vector<Location> SourceOrigins::locate(const std::vector<Spot>& spots) const {
    std::vector<std::size_t> offsets;
    offsets.reserve(spots.size());
    for (const Spot& spot : spots) offsets.push_back(offset_of(spot.pointer).value_or(0));
    std::vector<Location> result = locations(text_, offsets, file_name_);
    for (std::size_t i = 0; i < spots.size(); ++i) {
        if (!offset_of(spots[i].pointer)) result[i] = {file_name_};
    }
    return result;
}

void SourceOrigins::quote(std::vector<Finding>& findings) const {
    quote_lines(findings, text_);
}

// The place of the nearest parent that has one; none where the file as a whole is meant.
std::optional<std::size_t> SourceOrigins::offset_of(std::string_view pointer) const {
    if (!pointer.empty() && pointer.front() == '@') {
        std::size_t offset = 0;
        std::from_chars(pointer.data() + 1, pointer.data() + pointer.size(), offset);
        return offset;
    }
    while (!pointer.empty()) {
        const auto found = places_.find(pointer);
        if (found != places_.end()) return found->second;
        pointer = pointer.substr(0, pointer.rfind('/'));
    }
    return std::nullopt;
}

}  // namespace halfsplit::draft
