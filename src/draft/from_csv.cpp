#include "halfsplit/draft/from_csv.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/csv_columns.hpp"
#include "draft/csv_halves.hpp"
#include "draft/csv_table.hpp"
#include "draft/csv_values.hpp"
#include "draft/source.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace halfsplit::draft {

namespace {

// The row number a person sees: lines of the file up to an offset that never goes back.
class LineCounter {
  public:
    explicit LineCounter(std::string_view text) : text_(text) {}
    std::size_t at(std::size_t offset) {
        for (; at_ < std::min(offset, text_.size()); ++at_) line_ += text_[at_] == '\n' ? 1 : 0;
        return line_;
    }

  private:
    std::string_view text_;
    std::size_t at_ = 0, line_ = 1;
};

class WireList {
  public:
    WireList(std::string_view text, const CsvTable& table, const Columns& columns,
             const ColumnOptions& options, Collector& findings)
        : table_(table), columns_(columns), options_(options), findings_(findings), lines_(text) {
        length_unit_ = unit_of_length(columns.heading[static_cast<std::size_t>(Column::Length)]);
        const std::string& size = columns.heading[static_cast<std::size_t>(Column::Size)];
        gauge_ = size.find("awg") != std::string::npos || size.find("gauge") != std::string::npos;
        square_ = size.find("mm") != std::string::npos;
    }

    Loom read() {
        read_title();
        for (std::size_t row = columns_.first_row; row < table_.rows.size(); ++row)
            read_row(table_.rows[row]);
        settle_units();
        settle_parts(loom_, options_);
        return std::move(loom_);
    }

  private:
    void read_title() {
        std::vector<std::string> words;
        for (std::size_t row = 0; row + 1 < columns_.first_row; ++row) {
            for (const CsvCell& cell : table_.rows[row]) {
                if (!cell.text.empty()) words.push_back(cell.text);
            }
        }
        loom_.title = join(words, " ");
    }

    const CsvCell& cell(const CsvRow& row, Column column) const {
        static const CsvCell nothing;
        const std::size_t at = columns_.at[static_cast<std::size_t>(column)];
        return at < row.size() ? row[at] : nothing;
    }

    void read_row(const CsvRow& row) {
        const std::size_t line = lines_.at(row.front().offset);
        const CsvCell& from = cell(row, Column::From);
        const CsvCell& to = cell(row, Column::To);
        if (from.text.empty() && to.text.empty()) {
            std::vector<std::string> words;
            for (const CsvCell& it : row) {
                if (!it.text.empty()) words.push_back(it.text);
            }
            loom_.left_out.push_back(fmt::format("line {}: no ends, so no wire: {}", line, join(words, " ")));
            return;
        }
        LoomWire wire;
        wire.offset = from.text.empty() ? to.offset : from.offset;
        wire.id = cell(row, Column::Wire).text;
        if (wire.id.empty()) wire.id = fmt::format("line-{}", line);
        wire.signal = cell(row, Column::Signal).text;
        const std::string& cable = cell(row, Column::Cable).text;
        if (!cable.empty()) wire.group = "cable " + cable;
        wire.twisted = !cable.empty();
        wire.ends[0] = read_end(from, cell(row, Column::FromCavity).text);
        wire.ends[1] = read_end(to, cell(row, Column::ToCavity).text);
        for (std::size_t end = 0; end < 2; ++end) {
            if (wire.ends[end].part == nowhere)
                wire.unusable =
                    end == 0 ? "its row has nothing under \"from\"" : "its row has nothing under \"to\"";
        }
        read_colour(row, wire);
        read_figures(row, wire);
        check_listed_once(wire, line);
        loom_.wires.push_back(std::move(wire));
    }

    // "X1:4" holds the cavity too, where no column does.
    LoomEnd read_end(const CsvCell& cell, std::string cavity) {
        std::string id = cell.text;
        const std::size_t colon = id.rfind(':');
        if (cavity.empty() && colon != std::string::npos && colon > 0) {
            cavity = id.substr(colon + 1);
            id.resize(colon);
        }
        if (id.empty() || id == "-") return {};
        const auto [entry, fresh] = parts_.try_emplace(id, loom_.parts.size());
        if (fresh) add_part(id, cell.offset);
        return {entry->second, cavity == "-" ? std::string() : std::move(cavity)};
    }

    void add_part(const std::string& id, std::size_t offset) {
        LoomPart part;
        part.id = id;
        part.offset = offset;
        loom_.parts.push_back(std::move(part));
    }

    void read_colour(const CsvRow& row, LoomWire& wire) {
        const CsvCell& base = cell(row, Column::Colour);
        const CsvCell& stripe = cell(row, Column::Stripe);
        const CsvCell& first = base.text.empty() ? stripe : base;
        const std::string both =
            base.text + (base.text.empty() || stripe.text.empty() ? "" : "/") + stripe.text;
        const ReadColour read = read_colour_words(both, options_.colours);
        wire.colour = read.colour;
        joined_ = joined_ || read.joined;
        if (!read.why.empty())
            findings_.warning("csv-cell", at_offset(first.offset),
                              {"the colour \"" + both + "\" is not kept: " + read.why,
                               "codes of IEC 60757, base and stripe, such as YE/BK", "",
                               "write the codes; --columns colours=german reads German ones"});
    }

    void read_figures(const CsvRow& row, LoomWire& wire) {
        const bool commas = table_.separator == ',';
        const CsvCell& size = cell(row, Column::Size);
        const CsvFigure section = csv_section(size.text, gauge_, commas);
        if (!section.readable) say_figure(size, "a section in mm2 (0.05 to 120) or a gauge (0 to 40 AWG)");
        wire.section_mm2 = section.value;
        no_size_unit_ = no_size_unit_ || (section.value > 0 && !section.unit_known && !square_);
        const CsvCell& at = cell(row, Column::Length);
        const CsvFigure length = csv_length(at.text, length_unit_, commas);
        wire.length_m = length.value;
        if (!length.unit_known) unitless_.push_back(loom_.wires.size());
        if (!length.readable || (length.unit_known && length.value > longest_m)) {
            say_figure(at, "a length of at most 1000 m");
            wire.length_m = 0;
        }
    }

    void say_figure(const CsvCell& cell, const std::string& expected) {
        findings_.warning(
            "csv-cell", at_offset(cell.offset),
            {"\"" + cell.text + "\" is not kept: no such figure", expected, "",
             "correct the cell; a figure such as 1,250 in a file with commas is not safe to read"});
    }

    // Without a unit anywhere: long figures are millimetres, short ones metres.
    void settle_units() {
        if (joined_)
            loom_.assumed.emplace_back(
                "colours in one word: the base colour stands first, the stripe after it");
        if (no_size_unit_) loom_.assumed.emplace_back("sizes without a unit: mm2");
        if (unitless_.empty()) return;
        std::vector<double> figures;
        for (const std::size_t wire : unitless_) figures.push_back(loom_.wires[wire].length_m);
        const auto middle = figures.begin() + static_cast<std::ptrdiff_t>(figures.size() / 2);
        std::nth_element(figures.begin(), middle, figures.end());
        const bool millimetres = *middle > 20;
        for (const std::size_t wire : unitless_) {
            double& length = loom_.wires[wire].length_m;
            length = std::min(length * (millimetres ? 0.001 : 1), longest_m);
        }
        loom_.assumed.push_back(
            fmt::format("lengths without a unit: {}, by their size", millimetres ? "mm" : "m"));
    }

    void check_listed_once(LoomWire& wire, std::size_t line) {
        if (!wire.unusable.empty()) return;
        std::array<EndKey, 2> ends{EndKey(wire.ends[0].part, wire.ends[0].cavity),
                                   EndKey(wire.ends[1].part, wire.ends[1].cavity)};
        std::sort(ends.begin(), ends.end());
        const auto [entry, fresh] = listed_.try_emplace({wire.id, ends}, line);
        if (!fresh) wire.unusable = fmt::format("it stands in line {} already", entry->second);
    }

    using EndKey = std::pair<std::size_t, std::string>;
    static constexpr double longest_m = 1000;  // docs/reference/harness-format.md

    const CsvTable& table_;
    const Columns& columns_;
    const ColumnOptions& options_;
    Collector& findings_;
    LineCounter lines_;
    double length_unit_ = 0;
    bool gauge_ = false, square_ = false, joined_ = false, no_size_unit_ = false;
    std::vector<std::size_t> unitless_;  // wires whose length has no unit
    std::map<std::string, std::size_t> parts_;
    std::map<std::pair<std::string, std::array<EndKey, 2>>, std::size_t> listed_;  // lines
    Loom loom_;
};

}  // namespace

LoomRead read_csv(std::string_view text, const std::string& file_name, std::string_view columns) {
    Collector findings;
    LoomRead result;
    const ColumnOptions options = read_column_options(columns, findings);
    const CsvTable table = read_table(text, findings);
    if (!findings.errors()) {
        const Columns found = find_columns(table, options, findings);
        if (!findings.errors()) result.loom = WireList(text, table, found, options, findings).read();
    }
    result.findings = findings.placed(SourceOrigins(text, file_name));
    return result;
}

bool looks_like_wire_list(std::string_view text) {
    constexpr std::size_t looked_at = 50'000;
    Collector findings;
    const CsvTable table =
        read_table(text.substr(0, std::min(text.rfind('\n', looked_at), text.size())), findings);
    if (table.rows.empty()) return false;
    Collector header;
    find_columns(table, {}, header);
    return !header.errors();
}

}  // namespace halfsplit::draft
