#include "draft/csv_columns.hpp"

#include "halfsplit/base/text.hpp"

#include "draft/source.hpp"

#include <algorithm>
#include <charconv>
#include <optional>
#include <utility>

namespace halfsplit::draft {

namespace {

constexpr std::size_t rows_before_header = 20;

constexpr std::array<std::string_view, column_kinds> option_names{{"from", "from-cavity", "to", "to-cavity",
                                                                   "wire", "signal", "colour", "stripe",
                                                                   "size", "length", "cable"}};

// Words of a header for each column, as wire lists have them (common practice, no source).
constexpr std::array<std::string_view, column_kinds> header_words{
    {"|from|from part|from connector|from component|from device|from id|source|start|end 1|end a|part a|part "
     "1|",
     "|from cavity|from pin|from terminal|from cav|source pin|start pin|pin a|pin 1|cavity a|cavity 1|",
     "|to|to part|to connector|to component|to device|to id|target|destination|end|end 2|end b|part b|part "
     "2|",
     "|to cavity|to pin|to terminal|to cav|target pin|end pin|pin b|pin 2|cavity b|cavity 2|",
     "|wire|wire no|wire number|wire id|wire name|no|number|id|lead|#|",
     "|signal|signal name|circuit|circuit name|circuit no|circuit number|net|net name|function|",
     "|colour|color|wire colour|wire color|base|base colour|base color|",
     "|stripe|tracer|second colour|second color|stripe colour|stripe color|",
     "|size|section|cross section|csa|area|wire size|gauge|wire gauge|awg|mm2|sq mm|",
     "|length|wire length|cut length|len|", "|cable|cable no|twisted with|twist|twisted|twisted pair|pair|"}};

// Either end, whichever was named last, or comes first.
constexpr std::string_view part_words = "|part|connector|component|device|";
constexpr std::string_view cavity_words = "|cavity|cav|pin|terminal|contact|position|";

bool is_among(std::string_view words, const std::string& word) {
    return words.find('|' + word + '|') != std::string_view::npos;
}

// Without units and marks: "Length (mm)" is "length", "Cross-section [mm²]" is "cross section".
std::string plain_header(const std::string& text) {
    std::string plain;
    for (const char c : text.substr(0, text.find_first_of("([{"))) {
        const bool letter = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || c == '#';
        plain += letter ? c : ' ';
    }
    std::vector<std::string> words = split_words(plain);
    const auto is_unit = [](const std::string& word) {
        return word == "mm" || word == "cm" || word == "m" || word == "in" || word == "mm2" || word == "awg";
    };
    while (words.size() > 1 && is_unit(words.back())) words.pop_back();
    if (words.size() == 1 && words.front() == "mm") return "size";  // "mm²"
    return join(words, " ");
}

std::optional<std::size_t> plain_number(const std::string& text) {
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return number;
}

void claim(Columns& columns, Column which, std::size_t at, const std::string& heading) {
    const auto kind = static_cast<std::size_t>(which);
    if (columns.at[kind] != no_column) return;
    columns.at[kind] = at;
    columns.heading[kind] = heading;
}

bool has_column(const Columns& columns, Column which) {
    return columns.at[static_cast<std::size_t>(which)] != no_column;
}

bool is_claimed(const Columns& columns, std::size_t at) {
    return std::find(columns.at.begin(), columns.at.end(), at) != columns.at.end();
}

// Columns that the option names: by the very words of the header, or by number.
void claim_by_option(const CsvRow& row, const ColumnOptions& options, Columns& columns) {
    for (std::size_t kind = 0; kind < column_kinds; ++kind) {
        const std::string wanted = lower(options.header[kind]);
        if (wanted.empty()) continue;
        const std::optional<std::size_t> number = plain_number(wanted);
        for (std::size_t at = 0; at < row.size() && !number; ++at) {
            if (lower(row[at].text) == wanted) claim(columns, static_cast<Column>(kind), at, wanted);
        }
        if (number && *number >= 1)
            claim(columns, static_cast<Column>(kind), *number - 1,
                  *number <= row.size() ? lower(row[*number - 1].text) : "");
    }
}

void claim_by_words(const CsvRow& row, Columns& columns) {
    bool second = false;  // whether the end named last is `to`
    for (std::size_t at = 0; at < row.size(); ++at) {
        const std::string heading = lower(row[at].text);
        const std::string word = plain_header(heading);
        if (word.empty()) continue;
        if (!is_claimed(columns, at)) {
            for (std::size_t kind = 0; kind < column_kinds; ++kind) {
                if (is_among(header_words[kind], word))
                    claim(columns, static_cast<Column>(kind), at, heading);
            }
            if (is_among(part_words, word))
                claim(columns, has_column(columns, Column::From) ? Column::To : Column::From, at, heading);
            if (is_among(cavity_words, word))
                claim(columns, second ? Column::ToCavity : Column::FromCavity, at, heading);
        }
        if (columns.at[static_cast<std::size_t>(Column::To)] == at) second = true;
        if (columns.at[static_cast<std::size_t>(Column::From)] == at) second = false;
    }
}

Columns columns_of(const CsvRow& row, const ColumnOptions& options) {
    Columns columns;
    columns.at.fill(no_column);
    claim_by_option(row, options, columns);
    claim_by_words(row, columns);
    return columns;
}

// Whether columns were given by number and this row has nothing of a header: it is data already.
bool is_data(const CsvRow& row, const ColumnOptions& options) {
    const bool numbered = plain_number(options.header[static_cast<std::size_t>(Column::From)]) &&
                          plain_number(options.header[static_cast<std::size_t>(Column::To)]);
    if (!numbered) return false;
    const Columns by_words = columns_of(row, {});
    return !has_column(by_words, Column::From) && !has_column(by_words, Column::Wire) &&
           !has_column(by_words, Column::Signal) && !has_column(by_words, Column::Colour);
}

void say_missing_options(const CsvRow& row, const ColumnOptions& options, Collector& findings) {
    Columns columns;
    columns.at.fill(no_column);
    claim_by_option(row, options, columns);
    std::vector<std::string> headers;
    for (const CsvCell& cell : row) headers.push_back(cell.text);
    for (std::size_t kind = 0; kind < column_kinds; ++kind) {
        if (options.header[kind].empty() || columns.at[kind] != no_column) continue;
        findings.error("csv-option", at_offset(row.front().offset),
                       {"no column is headed \"" + options.header[kind] + "\", as --columns says",
                        "one of " + join(headers, ", "), nearest_name(options.header[kind], headers),
                        "correct --columns, or give the column's number"});
    }
}

void read_column_option(const std::string& key, const std::string& value, ColumnOptions& options,
                        Collector& findings) {
    const auto* name = std::find(option_names.begin(), option_names.end(), key);
    if (name != option_names.end()) {
        options.header[static_cast<std::size_t>(name - option_names.begin())] = value;
    } else if (key == "splices") {
        options.splices.push_back(value);
    } else if (key == "eyelets") {
        options.eyelets.push_back(value);
    } else if (key == "connectors") {
        options.connectors.push_back(value);
    } else if (key == "colours" && (value == "german" || value == "iec")) {
        options.colours = value == "german" ? ColourCodes::German : ColourCodes::International;
    } else {
        std::vector<std::string> known(option_names.begin(), option_names.end());
        known.insert(known.end(), {"splices", "eyelets", "connectors", "colours"});
        findings.error("csv-option", "",
                       {"--columns has \"" + key + '=' + value + "\", which means nothing here",
                        "NAME=HEADER with a name of " + join(known, ", ") + "; colours=german or colours=iec",
                        nearest_name(key, known), "correct --columns (docs/reference/wire-data.md)"});
    }
}

}  // namespace

ColumnOptions read_column_options(std::string_view text, Collector& findings) {
    ColumnOptions options;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(','), text.size());
        const std::string_view entry = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (entry.empty()) continue;
        const std::size_t equals = entry.find('=');
        const std::string key = join(split_words(entry.substr(0, equals)), " ");
        const std::string value =
            equals == std::string_view::npos ? "" : join(split_words(entry.substr(equals + 1)), " ");
        read_column_option(key, value, options, findings);
    }
    return options;
}

Columns find_columns(const CsvTable& table, const ColumnOptions& options, Collector& findings) {
    for (std::size_t row = 0; row < std::min(table.rows.size(), rows_before_header); ++row) {
        Columns columns = columns_of(table.rows[row], options);
        if (!has_column(columns, Column::From) || !has_column(columns, Column::To)) continue;
        say_missing_options(table.rows[row], options, findings);
        columns.first_row = is_data(table.rows[row], options) ? row : row + 1;
        return columns;
    }
    const std::size_t at = table.rows.empty() ? 0 : table.rows.front().front().offset;
    findings.error("csv-header", at_offset(at),
                   {"none of the first rows is a header with columns for both ends of a wire",
                    "a row such as: wire, signal, from, cavity, to, cavity, colour, size mm2, length m", "",
                    "add it, or say which columns they are: --columns \"from=HEADER,to=HEADER\" "
                    "(docs/reference/wire-data.md)"});
    Columns none;
    none.at.fill(no_column);
    return none;
}

}  // namespace halfsplit::draft
