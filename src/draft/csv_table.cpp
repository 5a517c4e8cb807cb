#include "draft/csv_table.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/draft/from_csv.hpp"

#include "base/json_scan.hpp"
#include "draft/source.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace halfsplit::draft {

namespace {

constexpr std::size_t longest_quote = 100'000;  // a quote that nobody closed would take the rest of the file

// The one of ; tab and , that stands in most of the first rows, outside quotes. Semicolons and tabs go before
// commas, which may be decimal ones.
char separator_of(std::string_view text) {
    std::array<std::pair<char, std::size_t>, 3> counts{{{';', 0}, {'\t', 0}, {',', 0}}};
    constexpr std::size_t looked_at = 20'000;
    bool quoted = false;
    for (const char c : text.substr(0, looked_at)) {
        if (c == '"') quoted = !quoted;
        for (auto& [separator, count] : counts) count += !quoted && c == separator ? 1 : 0;
    }
    const auto lines = static_cast<std::size_t>(std::count(
        text.begin(), text.begin() + static_cast<std::ptrdiff_t>(std::min(looked_at, text.size())), '\n'));
    for (const auto& [separator, count] : counts) {
        if (count > lines) return separator;
    }
    return std::max_element(counts.begin(), counts.end(),
                            [](const auto& a, const auto& b) { return a.second < b.second; })
        ->first;
}

bool check_encoding(std::string_view text, Collector& findings) {
    const bool wide = text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF";
    const std::size_t invalid = wide ? 0 : std::min(find_invalid_utf8(text), text.find('\0'));
    if (invalid == std::string_view::npos) return true;
    findings.error("csv-encoding", at_offset(invalid),
                   {wide ? "the file is UTF-16 (\"Unicode text\")"
                         : "a byte that is not UTF-8 (an older encoding of letters with marks)",
                    "UTF-8", "", "in the spreadsheet, save it as \"CSV UTF-8\""});
    return false;
}

std::string trimmed(std::string_view text) {
    std::string plain(text);
    std::replace_if(
        plain.begin(), plain.end(), [](char c) { return c == '\n' || c == '\r' || c == '\t'; }, ' ');
    const std::size_t first = plain.find_first_not_of(' ');
    if (first == std::string::npos) return {};
    return plain.substr(first, plain.find_last_not_of(' ') - first + 1);
}

class CsvScanner {
  public:
    CsvScanner(std::string_view text, std::size_t start, CsvTable& table, Collector& findings)
        : text_(text), at_(start), table_(table), findings_(findings) {}

    void read() {
        while (at_ < text_.size() && !findings_.errors()) {
            read_cell();
            if (at_ < text_.size() && text_[at_] == table_.separator) {
                ++at_;
                if (at_ == text_.size()) end_row();
                continue;
            }
            skip_line_end();
            end_row();
        }
    }

  private:
    void read_cell() {
        const std::size_t start = std::min(text_.find_first_not_of(' ', at_), text_.size());
        if (start < text_.size() && text_[start] == '"') {
            at_ = start;
            read_quoted();
            return;
        }
        const std::size_t end = cell_end(at_);
        row_.push_back({trimmed(text_.substr(at_, end - at_)), start});
        at_ = end;
    }

    std::size_t cell_end(std::size_t from) const {
        const std::array<char, 3> ends{table_.separator, '\n', '\r'};
        return std::min(text_.find_first_of(std::string_view(ends.data(), ends.size()), from), text_.size());
    }

    // A quote inside is written twice. What stands between the closing quote and the separator is kept.
    void read_quoted() {
        const std::size_t start = at_++;
        std::string content;
        for (;; ++at_) {
            if (at_ >= text_.size() || at_ - start > longest_quote) {
                findings_.error("csv-quote", at_offset(start),
                                {"a quote that is not closed", "a second quote at the end of the cell", "",
                                 "close it, or write it twice where it means inches"});
                return;
            }
            if (text_[at_] == '"') {
                if (at_ + 1 >= text_.size() || text_[at_ + 1] != '"') break;
                ++at_;
            }
            content += text_[at_];
        }
        ++at_;
        const std::size_t end = cell_end(at_);
        content += text_.substr(at_, end - at_);
        row_.push_back({trimmed(content), start + 1});
        at_ = end;
    }

    // CR LF, LF, or CR alone.
    void skip_line_end() {
        if (at_ < text_.size() && text_[at_] == '\r') ++at_;
        if (at_ < text_.size() && text_[at_] == '\n') ++at_;
    }

    void end_row() {
        while (!row_.empty() && row_.back().text.empty()) row_.pop_back();
        if (!row_.empty()) {
            if (table_.rows.size() == most_rows) {
                findings_.error("csv-too-long", at_offset(row_.front().offset),
                                {"more than " + std::to_string(most_rows) + " rows", "one vehicle's wires",
                                 "", "keep the rows that are wanted"});
            } else {
                table_.rows.push_back(std::move(row_));
            }
        }
        row_.clear();
    }

    std::string_view text_;
    std::size_t at_;
    CsvTable& table_;
    Collector& findings_;
    CsvRow row_;
};

}  // namespace

CsvTable read_table(std::string_view text, Collector& findings) {
    CsvTable table;
    if (!check_encoding(text, findings)) return table;
    std::size_t start = byte_order_mark(text);
    table.separator = separator_of(text.substr(start));
    // The first line of some spreadsheets: "sep=;".
    if (lower(text.substr(start, 4)) == "sep=" && start + 4 < text.size()) {
        table.separator = text[start + 4];
        start = std::min(text.find('\n', start), text.size() - 1) + 1;
    }
    CsvScanner(text, start, table, findings).read();
    if (table.rows.empty() && !findings.errors())
        findings.error("csv-empty", "",
                       {"the file has no rows", "a header and a row for each wire", "",
                        "check that it is the right file"});
    return table;
}

}  // namespace halfsplit::draft
