// Numbers with units, as a person writes and reads them. Inside the program: ohm, volt, metre, minute.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace halfsplit {

// "0.4 ohm", "120 ohm", "3.1 kohm", "2 Mohm", "OL" for infinity. Three significant digits, nothing finer than
// 1 mohm.
std::string format_ohm(double ohm);
// "2.5 V", "OL" for infinity. Three significant digits, nothing finer than 1 mV.
std::string format_volt(double volt);
// "7 min", "1 h 20 min", "2 h"; rounded to the minute, "under 1 min" below half a minute, "0 min" for none at
// all. At least 0; infinity (no plan ends) is "without end".
std::string format_minutes(double minutes);
// "3 %", "0.4 %", "under 0.1 %" and, towards certainty, "99.4 %", "over 99.9 %"; "0 %" and "100 %" only when
// exact. From 0 to 1.
std::string format_chance(double probability);

// Reads "0.4", "120", "3.1k", "2M", "OL", "ol", with or without "ohm"; infinity for OL.
// Empty when it is not such a number (or negative, or not finite other than OL).
std::optional<double> parse_ohm(std::string_view text);

// Reads "2.5V", "2.5 v", "-0.1V": the unit must be there, it is what tells volts from ohms. Empty otherwise.
std::optional<double> parse_volt(std::string_view text);

// "180 pF", "110 nF", "2.2 uF". Three significant digits, nothing finer than 1 pF; below that "0 pF".
std::string format_farad(double farad);
// "3.02 m"; two decimals.
std::string format_metres(double metres);
// Reads "180p", "110nF", "2.2 uF": the prefix must be there, the F may be left out; in farad. Empty
// otherwise, and for what is negative.
std::optional<double> parse_farad(std::string_view text);

// Reads a plain number without a unit: "10", "7.5", "-3". Digits and at most one point; no exponent, no
// "inf".
std::optional<double> parse_number(std::string_view text);

}  // namespace halfsplit
