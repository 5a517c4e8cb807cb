// Rows and cells of separated text as spreadsheets save it (RFC 4180, and what they do besides).
#pragma once

#include "base/collector.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::draft {

struct CsvCell {
    std::string text;        // without quotes, without blanks at its ends, line ends as blanks
    std::size_t offset = 0;  // where its text begins
};

using CsvRow = std::vector<CsvCell>;

struct CsvTable {
    char separator = ',';
    std::vector<CsvRow> rows;  // without empty ones, and without empty cells at the end of a row
};

// Errors: csv-encoding, csv-quote, csv-too-long, csv-empty. Linear.
CsvTable read_table(std::string_view text, Collector& findings);

}  // namespace halfsplit::draft
