// "bus body 500k BODY-H BODY-L wires B, Body bus" and "line lamp FEED, tail lamp feed".
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/sheet.hpp"

#include <algorithm>
#include <array>

namespace halfsplit::draft {

namespace {

constexpr std::array<const char*, 5> kinds{"iso11898-2", "iso11898-3", "j1939-11", "j1939-15", "other"};

class BusLine {
  public:
    BusLine(const SheetLine& line, Sheet& sheet) : line_(line), sheet_(sheet) {}

    void read() {
        if (line_.words.size() < 2) {
            sheet_.error("sheet-missing", line_.words.front().at,
                         {"the bus has no name", "bus body 500k BODY-H BODY-L, body bus", "", "name it"});
            return;
        }
        single_ = lower(line_.words.front().text) == "line";
        const Word& name = line_.words[1];
        if (!usable_id(name, sheet_)) return;
        network_ = {{"id", name.text}};
        if (line_.text) network_["name"] = line_.text->text;
        if (single_) network_["kind"] = "single-line";
        pointer_ = fmt::format("/networks/{}", sheet_.buses.size());
        for (at_ = 2; at_ < line_.words.size(); ++at_) read_word(line_.words[at_]);
        if (!lines_.empty()) network_["lines"]["h"] = lines_[0];
        if (lines_.size() > 1) network_["lines"]["l"] = lines_[1];
        note_unsaid();
        sheet_.document.append("networks", std::move(network_), name.at);
        sheet_.document.place(pointer_ + "/id", name.at);
        sheet_.buses.emplace_back();
        sheet_.bus().id = name.text;
        sheet_.bus().single = single_;
        sheet_.bus().run_prefix = prefix_;
    }

  private:
    void read_word(const Word& word) {
        const std::string plain = lower(word.text);
        if (!single_ && std::find(kinds.begin(), kinds.end(), plain) != kinds.end()) {
            put("kind", plain, word);
        } else if (plain == "wires" && has_next()) {
            if (usable_id(line_.words[++at_], sheet_)) prefix_ = line_.words[at_].text;
        } else if (plain == "terminators" && has_next()) {
            put_figure("terminators", read_plain(line_.words[++at_].text), 0, 16);
        } else if (plain == "stub" && has_next()) {
            put_figure("longest_stub_m", read_length(line_.words[++at_].text), 0, 1000);
        } else if (const auto ohm = read_ohm(word.text)) {
            put_figure("terminator_ohm", ohm, 1, 100'000);
        } else if (const auto rate = read_rate(word.text)) {
            put_figure("bit_rate", rate, 1000, 20'000'000);
        } else if (lines_.size() < (single_ ? 1U : 2U)) {
            sheet_.document.place(pointer_ + (lines_.empty() ? "/lines/h" : "/lines/l"), word.at);
            lines_.push_back(word.text);
        } else {
            sheet_.error("sheet-word", word.at,
                         {fmt::format("\"{}\" has no meaning here: the lines are named already", word.text),
                          "a bit rate such as 500k, a standard, 120ohm, wires B, terminators 2, stub 1m",
                          nearest_name(word.text, {"wires", "terminators", "stub", "iso11898-2", "iso11898-3",
                                                   "j1939-11", "j1939-15", "other"}),
                          "correct the word, or put words behind a comma"});
        }
    }

    bool has_next() const { return at_ + 1 < line_.words.size(); }

    void put(const char* member, Json value, const Word& word) {
        network_[member] = std::move(value);
        sheet_.document.place(pointer_ + "/" + member, word.at);
    }

    void put_figure(const char* member, std::optional<double> value, double least, double most) {
        const Word& word = line_.words[at_];
        if (!value) {
            sheet_.error("sheet-value", word.at,
                         {fmt::format("\"{}\" is no figure", word.text), "a number", "", "correct it"});
        } else if (within(*value, least, most, word, "it", sheet_)) {
            put(member, number_to_json(*value), word);
        }
    }

    void note_unsaid() {
        const std::string id = line_.words[1].text;
        if (lines_.empty()) sheet_.missing(single_ ? "line name" : "line names", id);
        if (single_) return;
        if (!network_.contains("kind")) sheet_.missing("kind", id);
        if (!network_.contains("bit_rate")) {
            const std::string kind = network_.value("kind", "");
            sheet_.missing(kind.rfind("j1939", 0) == 0 ? "slow rate" : "rate", id);
        }
        if (!network_.contains("terminator_ohm")) sheet_.missing("terminator_ohm", id);
    }

    const SheetLine& line_;
    Sheet& sheet_;
    std::size_t at_ = 0;
    bool single_ = false;
    std::string pointer_, prefix_ = "W";
    std::vector<std::string> lines_;
    Json network_;
};

}  // namespace

bool read_bus_line(const SheetLine& line, Sheet& sheet) {
    const std::string word = lower(line.words.front().text);
    if (word != "bus" && word != "line") return false;
    BusLine(line, sheet).read();
    return true;
}

}  // namespace halfsplit::draft
