// Logs of any length, for seeing what a long job costs.
#pragma once

#include <cstddef>
#include <string>

namespace halfsplit::test {

// A log of so many records: the beginning of `log` up to the safe state, then its readings, covers, clips and
// advice over and over, a minute apart, with figures that differ a little from time to time.
std::string long_job(const std::string& log, std::size_t records);

}  // namespace halfsplit::test
