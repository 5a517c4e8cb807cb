// Figures of a KBL with their units, and its colours.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include "draft/kbl_file.hpp"

#include <optional>
#include <string>
#include <vector>

namespace halfsplit::draft {

// A number of XML Schema's type double; empty for what is none, or not finite.
std::optional<double> kbl_number(std::string_view text);

// The Numerical_value in a child element, in metres or, with `square`, in mm2; 0 where there is none, where
// it is not above 0, and where its unit is no unit of length or area.
double kbl_figure(const KblFile& file, pugi::xml_node node, const char* child, bool square = false);

// Base and stripe from elements of the type Wire_colour; what could not be read is said in `left_out`.
harness::Colour kbl_colour(pugi::xml_node part, const char* child, std::vector<std::string>& left_out);

}  // namespace halfsplit::draft
