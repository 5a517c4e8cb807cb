// The value of a reading, as typed.
#pragma once

#include "halfsplit/job/event.hpp"

#include "input.hpp"

#include <string>

namespace halfsplit::job {

// Could this word be meant as a value ("0.4", "OL", "o", "-", but also "-3" and "nan")?
bool looks_like_value(const std::string& word);

// Takes a value (and a unit standing by itself, and the words `moved` and `wet`) into quantity, outcome,
// value and those two. Where `reading` comes in as one in volts, a figure without a unit is volts.
void take_value(Input& input, Reading& reading);

// Ohms alone. `word` is what the word taken last says; `expected` what the refusal asks for.
double ohms_in(const Input& input, const std::string& word, const std::string& expected);

// A number from 0 to `most`.
double number_in(const Input& input, const std::string& word, double most, const std::string& example);

}  // namespace halfsplit::job
