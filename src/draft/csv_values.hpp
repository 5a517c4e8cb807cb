// Figures as spreadsheets write them.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace halfsplit::draft {

// "0.5", "0,5", "1.234,5", "1 250". `comma_separates`: commas separate cells in this file, so that one within
// a figure may stand before thousands: "1,250" is then no figure that is safe to read. Empty for what is
// none, or below 0.
std::optional<double> csv_number(std::string_view text, bool comma_separates);

// Metres for each unit of what a heading or a cell ends with: "length (mm)" is 0.001; 0 where it names none.
double unit_of_length(std::string_view text);

struct CsvFigure {
    double value = 0;      // metres, or mm2; 0: none stated
    bool readable = true;  // false: something stands there that is no such figure
    bool unit_known = true;
};

// `heading_unit`: metres for each unit of the heading, or 0. Without a unit anywhere `value` is as written.
CsvFigure csv_length(std::string_view cell, double heading_unit, bool comma_separates);

// "0.5", "0.5 mm2", "20 AWG", "AWG20". `gauge`: the heading says that figures are gauges.
CsvFigure csv_section(std::string_view cell, bool gauge, bool comma_separates);

}  // namespace halfsplit::draft
