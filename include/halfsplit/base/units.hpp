// Numbers with units, as a person writes and reads them. Inside the program: ohm, volt, metre, minute.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace halfsplit {

// "0.4 ohm", "120 ohm", "3.1 kohm", "OL" for infinity. Three significant digits.
std::string format_ohm(double ohm);
// "2.5 V".
std::string format_volt(double volt);
// "7 min", "1 h 20 min"; rounded to the minute, "under 1 min" below half a minute.
std::string format_minutes(double minutes);
// "3 %", "0.4 %", "under 0.1 %".
std::string format_chance(double probability);

// Reads "0.4", "120", "3.1k", "2M", "OL", "ol", with or without "ohm"; infinity for OL.
// Empty when it is not such a number (or negative, or not finite other than OL).
std::optional<double> parse_ohm(std::string_view text);

}  // namespace halfsplit
