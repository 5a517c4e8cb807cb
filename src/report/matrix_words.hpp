// Words that the page and the card of a matrix share.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::report {

// "2.18 min": abstract problems have minutes of any size, so six significant digits and no hours.
std::string plain_minutes(double minutes);

// "0, 3, 5", cut after twenty.
std::string number_list(const std::vector<std::size_t>& numbers);

}  // namespace halfsplit::report
