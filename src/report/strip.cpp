#include "halfsplit/report/strip.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/harness/trunk.hpp"
#include "halfsplit/harness/variants.hpp"

#include <algorithm>

namespace halfsplit::report {

using harness::Harness;
using harness::Index;
using harness::PartKind;

namespace {

struct Token {
    std::string text;
    std::string marker;  // shown below the token's first letter
};

bool contains(const std::vector<std::string>& ids, const std::string& id) {
    return std::find(ids.begin(), ids.end(), id) != ids.end();
}

char sign(const StripMarks& marks, const std::string& id) {
    if (contains(marks.suspects, id)) return '?';
    return contains(marks.cleared, id) ? '=' : '-';
}

std::string marker(const StripMarks& marks, const std::string& id) {
    if (id == marks.clip && id == marks.probe) return "^clip, probe";
    if (id == marks.clip) return "^clip";
    return id == marks.probe ? "^probe" : "";
}

std::vector<Token> tokens(const Harness& harness, Index network, const StripMarks& marks) {
    const auto present = harness::variants(harness).front().present;
    std::vector<Token> result;
    std::size_t depth = 0;
    for (const harness::TrunkItem& item : harness::trunk(harness, network, present)) {
        const harness::Part& part = harness.parts[item.part];
        std::string text;
        for (; depth > item.depth; --depth) result.back().text += ')';
        for (; depth < item.depth; ++depth) text += '(';
        const char own = sign(marks, part.id);
        text += part.kind == PartKind::Run ? std::string(2, own) : part.id + (own == '?' ? "?" : "");
        result.push_back({text, marker(marks, part.id)});
    }
    if (!result.empty()) result.back().text += std::string(depth, ')');
    return result;
}

std::string without_trailing_spaces(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

// Tokens laid out in rows, each followed by its row of markers where it has any.
class Layout {
  public:
    explicit Layout(std::size_t columns) : columns_(columns) {}

    void add(const Token& token) {
        const std::size_t width = std::max(token.text.size(), token.marker.size());
        if (!row_.empty() && row_.size() + width > columns_) finish_row();
        if (!token.marker.empty()) {
            // Two markers side by side: the second waits for its turn a little to the right of its part.
            const std::size_t start =
                markers_.empty() ? row_.size() : std::max(row_.size(), markers_.size() + 1);
            markers_.resize(start, ' ');
            markers_ += token.marker;
        }
        row_ += token.text;
    }

    std::string text() {
        finish_row();
        return text_;
    }

  private:
    void finish_row() {
        if (row_.empty()) return;
        text_ += row_ + "\n";
        if (!markers_.empty()) text_ += without_trailing_spaces(markers_) + "\n";
        row_.clear();
        markers_.clear();
    }

    std::size_t columns_;
    std::string row_, markers_, text_;
};

}  // namespace

std::string strip(const Harness& harness, Index network, const StripMarks& marks, std::size_t columns) {
    Layout layout(columns);
    for (const Token& token : tokens(harness, network, marks)) layout.add(token);
    return layout.text() + wrap("= read good  ? suspect  - unlikely", columns) + "\n";
}

}  // namespace halfsplit::report
