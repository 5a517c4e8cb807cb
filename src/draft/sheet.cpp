#include "draft/sheet.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "harness/names.hpp"

#include <algorithm>

namespace halfsplit::draft {

namespace {

std::string bare(std::string_view text) {
    std::string result;
    for (const char c : lower(text)) {
        if (c != '_' && c != '-' && c != '+') result += c;
    }
    return result;
}

std::vector<std::string> that_mean(std::string_view word, const std::vector<std::string>& ids) {
    const std::string wanted = bare(word);
    std::vector<std::string> whole, begun;
    for (const std::string& id : ids) {
        const std::string plain = bare(id);
        if (id == word) return {id};
        if (plain == wanted) whole.push_back(id);
        if (wanted.size() >= 3 && plain.rfind(wanted, 0) == 0) begun.push_back(id);
    }
    return whole.empty() ? begun : whole;
}

// "seat_1" and "seat_2" are near and yet two things.
bool differ_by_number(std::string_view a, std::string_view b) {
    const auto without_digits = [](std::string_view text) {
        std::string result;
        for (const char c : bare(text)) {
            if (c < '0' || c > '9') result += c;
        }
        return result;
    };
    return without_digits(a) == without_digits(b);
}

}  // namespace

void Sheet::error(const char* id, const At& at, Remark remark) {
    if (findings.size() >= most_findings) return;
    Finding finding;
    finding.id = id;
    finding.location = {file, at.line, at.column};
    finding.message = std::move(remark.message);
    finding.expected = std::move(remark.expected);
    finding.nearest = std::move(remark.nearest);
    finding.next_step = std::move(remark.next);
    findings.push_back(std::move(finding));
}

void Sheet::note_short(const std::string& word, const std::string& meant) {
    std::vector<std::string>& known = unsaid["short"];
    const std::string entry = fmt::format("{} for {}", word, meant);
    if (std::find(known.begin(), known.end(), entry) == known.end()) known.push_back(entry);
}

std::string name_in(Names& names, const Word& word, Sheet& sheet) {
    const std::vector<std::string> meant = that_mean(word.text, names.ids);
    if (meant.size() == 1) {
        if (bare(meant.front()) != bare(word.text)) sheet.note_short(word.text, meant.front());
        return meant.front();
    }
    if (meant.size() > 1) {
        sheet.error("sheet-name", word.at,
                    {fmt::format("\"{}\" may be any of {}", word.text, join(meant, ", ")),
                     "the name of one " + names.kind, "", "write more of it"});
        return {};
    }
    const std::string near = nearest_name(word.text, names.ids);
    const bool fresh = names.open && (near.empty() || differ_by_number(near, word.text));
    if (fresh && usable_id(word, sheet)) {
        names.ids.push_back(word.text);
        names.made.push_back(word.text);
        return word.text;
    }
    if (fresh) return {};
    sheet.error("sheet-name", word.at,
                {fmt::format("no {} is named \"{}\"", names.kind, word.text),
                 fmt::format("a {} of the library or of this sheet", names.kind), near,
                 fmt::format("correct the name, or add a line above: {} {}, what it is in words", names.kind,
                             word.text)});
    return {};
}

bool within(double value, double least, double most, const Word& word, const char* what, Sheet& sheet) {
    if (value >= least && value <= most) return true;
    sheet.error("sheet-value", word.at,
                {fmt::format("\"{}\" is out of range for {}", word.text, what),
                 fmt::format("{} to {}", short_number(least), short_number(most)), "", "correct the figure"});
    return false;
}

bool usable_id(const Word& word, Sheet& sheet) {
    if (word.text.size() <= 40 && harness::is_name(word.text)) return true;
    sheet.error("bad-name", word.at,
                {fmt::format("\"{}\" cannot be a name", word.text),
                 "letters, digits, _ + and -, a letter or digit first, at most 40", "",
                 "shorten it, and put words behind a comma"});
    return false;
}

}  // namespace halfsplit::draft
