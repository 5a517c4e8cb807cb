#include "halfsplit/base/text_edit.hpp"

#include <fmt/format.h>

#include "base/json_scan.hpp"

#include <algorithm>
#include <utility>

namespace halfsplit {

namespace {

constexpr std::size_t lines_around = 3;

bool goes_on_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

// Length of the JSON string or plain word that begins at `offset`; 0 where something else does.
std::size_t token_length(std::string_view text, std::size_t offset) {
    if (offset >= text.size()) return 0;
    const JsonToken token = JsonScan(text.substr(offset)).next();
    using Kind = JsonToken::Kind;
    const bool plain = token.kind == Kind::Scalar || token.kind == Kind::Name;
    return plain && token.offset == 0 ? token.text.size() : 0;
}

// An entry of a list with the comma and the blanks that belong to it: those before it, or behind the first.
Edit without_entry(std::string_view text, std::size_t offset, std::size_t length) {
    constexpr const char* between = " \t\r\n";
    const std::size_t before = text.find_last_not_of(between, offset - 1);
    if (offset > 0 && before != std::string_view::npos && text[before] == ',')
        return {before, offset + length - before, ""};
    const std::size_t behind = std::min(text.find_first_not_of(between, offset + length), text.size());
    if (behind >= text.size() || text[behind] != ',') return {offset, length, ""};
    const std::size_t next = std::min(text.find_first_not_of(between, behind + 1), text.size());
    return {offset, next - offset, ""};
}

// Lines that change together, from 1; `last` is the last that changes.
struct Hunk {
    std::size_t first = 0, last = 0;
    std::vector<Edit> edits;
};

std::vector<Hunk> hunks_of(const Lines& lines, const std::vector<Edit>& edits) {
    std::vector<Hunk> hunks;
    for (const Edit& edit : edits) {
        const std::size_t first = lines.place_of(edit.offset, "").line;
        const std::size_t last = lines.place_of(edit.offset + edit.length, "").line;
        if (hunks.empty() || first > hunks.back().last + 2 * lines_around) hunks.push_back({first, last, {}});
        hunks.back().last = std::max(hunks.back().last, last);
        hunks.back().edits.push_back(edit);
    }
    return hunks;
}

std::vector<std::string_view> split_lines(std::string_view text) {
    std::vector<std::string_view> result;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size() - 1) + 1;
        result.push_back(text.substr(0, end));
        text.remove_prefix(end);
    }
    return result;
}

std::string marked(char sign, std::string_view line) {
    std::string text = sign + std::string(line);
    if (text.back() != '\n') text += "\n\\ No newline at end of file\n";
    return text;
}

// The lines that change, old and new, those between two changes kept as they are.
std::string changed_lines(const std::vector<std::string_view>& before,
                          const std::vector<std::string_view>& after) {
    std::string text;
    if (before.size() != after.size()) {
        for (const std::string_view line : before) text += marked('-', line);
        for (const std::string_view line : after) text += marked('+', line);
        return text;
    }
    for (std::size_t i = 0; i < before.size();) {
        if (before[i] == after[i]) {
            text += marked(' ', before[i++]);
            continue;
        }
        const std::size_t start = i;
        for (; i < before.size() && before[i] != after[i]; ++i) text += marked('-', before[i]);
        for (std::size_t j = start; j < i; ++j) text += marked('+', after[j]);
    }
    return text;
}

}  // namespace

Lines::Lines(std::string_view text) : text_(text), starts_{byte_order_mark(text)} {
    for (std::size_t at = text.find('\n'); at != std::string_view::npos; at = text.find('\n', at + 1))
        starts_.push_back(at + 1);
}

std::size_t Lines::offset_of(std::size_t line, std::size_t column) const {
    if (line == 0 || line > starts_.size()) return text_.size();
    std::size_t at = starts_[line - 1];
    for (std::size_t left = column; left > 1 && at < text_.size(); --left) {
        ++at;
        while (at < text_.size() && goes_on_character(text_[at])) ++at;
    }
    return at;
}

Location Lines::place_of(std::size_t offset, const std::string& file) const {
    const auto behind = std::upper_bound(starts_.begin(), starts_.end(), offset);
    const auto line = static_cast<std::size_t>(behind - starts_.begin());
    const std::size_t start = starts_[std::max<std::size_t>(line, 1) - 1];
    std::size_t column = 1;
    for (std::size_t at = start; at < std::min(offset, text_.size()); ++at)
        column += goes_on_character(text_[at]) ? 0 : 1;
    return {file, std::max<std::size_t>(line, 1), column};
}

std::string_view Lines::line(std::size_t line) const {
    const std::size_t end = line < starts_.size() ? starts_[line] : text_.size();
    return text_.substr(starts_[line - 1], end - starts_[line - 1]);
}

std::optional<Edit> edit_of(const Finding& finding, std::string_view text, const Lines& lines) {
    if (finding.mend.kind == Mend::Kind::None || finding.location.line == 0) return std::nullopt;
    const std::size_t offset = lines.offset_of(finding.location.line, finding.location.column);
    const std::size_t length = token_length(text, offset);
    if (length == 0) return std::nullopt;
    if (finding.mend.kind == Mend::Kind::Delete) return without_entry(text, offset, length);
    return Edit{offset, length, finding.mend.text};
}

std::vector<Edit> in_order(std::vector<Edit> edits) {
    std::stable_sort(edits.begin(), edits.end(),
                     [](const Edit& a, const Edit& b) { return a.offset < b.offset; });
    std::vector<Edit> result;
    for (Edit& edit : edits) {
        const bool overlaps = !result.empty() && edit.offset < result.back().offset + result.back().length;
        if (!overlaps) result.push_back(std::move(edit));
    }
    return result;
}

std::string edited(std::string_view text, const std::vector<Edit>& edits) {
    std::string result;
    std::size_t at = 0;
    for (const Edit& edit : edits) {
        result += text.substr(at, edit.offset - at);
        result += edit.text;
        at = edit.offset + edit.length;
    }
    return result += text.substr(at);
}

std::string unified_difference(const std::string& file, std::string_view text,
                               const std::vector<Edit>& edits) {
    if (edits.empty()) return {};
    const Lines lines(text);
    std::string result = "--- " + file + "\n+++ " + file + "\n";
    std::ptrdiff_t shift = 0;  // of line numbers behind what has changed so far
    for (Hunk& hunk : hunks_of(lines, edits)) {
        const std::size_t first = hunk.first > lines_around ? hunk.first - lines_around : 1;
        const std::size_t last = std::min(hunk.last + lines_around, lines.size());
        const std::size_t start = lines.offset_of(first, 1);
        const std::size_t end = lines.offset_of(last + 1, 1);
        for (Edit& edit : hunk.edits) edit.offset -= start;
        const std::string_view old = text.substr(start, end - start);
        const std::string now = edited(old, hunk.edits);
        const auto before = split_lines(old), after = split_lines(now);
        result += fmt::format("@@ -{},{} +{},{} @@\n", first, before.size(),
                              static_cast<std::ptrdiff_t>(first) + shift, after.size());
        result += changed_lines(before, after);
        shift += static_cast<std::ptrdiff_t>(after.size()) - static_cast<std::ptrdiff_t>(before.size());
    }
    return result;
}

}  // namespace halfsplit
