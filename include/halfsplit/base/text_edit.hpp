// Changes to a text at single places, so that every other byte stays as it was.
#pragma once

#include "halfsplit/base/finding.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

// `length` bytes from `offset` on become `text`.
struct Edit {
    std::size_t offset = 0, length = 0;
    std::string text;
    bool operator==(const Edit&) const = default;
};

// Finds places in one text: built in one pass, each look-up then costs little.
class Lines {
  public:
    explicit Lines(std::string_view text);
    // The offset of a place as findings give it (one-based line and column, in characters); the end of the
    // text where there is no such place.
    std::size_t offset_of(std::size_t line, std::size_t column) const;
    // The place of an offset.
    Location place_of(std::size_t offset, const std::string& file) const;
    std::size_t size() const { return starts_.size(); }
    // With its line end, if it has one; `line` from 1.
    std::string_view line(std::size_t line) const;

  private:
    std::string_view text_;
    std::vector<std::size_t> starts_;
};

// What the finding's mend changes in the JSON text that it is about; empty where it has none.
std::optional<Edit> edit_of(const Finding& finding, std::string_view text, const Lines& lines);

// In order of offset, those that overlap an earlier one left out.
std::vector<Edit> in_order(std::vector<Edit> edits);

// `edits` as in_order gives them.
std::string edited(std::string_view text, const std::vector<Edit>& edits);

// The change in the unified format (POSIX, diff -u) with three lines around; empty where there are no edits.
std::string unified_difference(const std::string& file, std::string_view text,
                               const std::vector<Edit>& edits);

}  // namespace halfsplit
