// Which column of a wire list is which.
#pragma once

#include "draft/colour_words.hpp"
#include "draft/csv_table.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::draft {

enum class Column : std::uint8_t {
    From,
    FromCavity,
    To,
    ToCavity,
    Wire,
    Signal,
    Colour,
    Stripe,
    Size,
    Length,
    Cable
};
inline constexpr std::size_t column_kinds = 11;

// What --columns says: columns by the words of their header or by number, and what ids mean.
struct ColumnOptions {
    std::array<std::string, column_kinds> header;           // empty: by the header's own words
    std::vector<std::string> splices, eyelets, connectors;  // ids begin so
    ColourCodes colours = ColourCodes::International;
};

// "from=Pin A,length=3,splices=S,colours=german". Error: csv-option.
ColumnOptions read_column_options(std::string_view text, Collector& findings);

struct Columns {
    std::array<std::size_t, column_kinds> at{};       // column of the table; npos where there is none
    std::array<std::string, column_kinds> heading{};  // its header in small letters
    std::size_t first_row = 0;                        // of data
};

inline constexpr std::size_t no_column = static_cast<std::size_t>(-1);

// Looks for the header among the first rows. Errors: csv-header, csv-option.
Columns find_columns(const CsvTable& table, const ColumnOptions& options, Collector& findings);

}  // namespace halfsplit::draft
