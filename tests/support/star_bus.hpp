// A star as wide as wanted, of the same pieces over and over: for pictures.
#pragma once

#include <cstddef>
#include <string>

namespace halfsplit::test {

// A splice "HUB" with a terminator to either side, a socket, and arms of modules M1, M2, ... in a row.
// `words` stands in each name of a place, cover and module, before its number.
std::string star_bus_json(std::size_t arms, std::size_t modules_on_each, const std::string& words = "number");

}  // namespace halfsplit::test
