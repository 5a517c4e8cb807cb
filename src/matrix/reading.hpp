// What the passes over a matrix file share.
#pragma once

#include "halfsplit/matrix/matrix.hpp"

#include "base/collector.hpp"
#include "base/member.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::matrix {

struct Reading {
    Matrix matrix;
    Collector findings;
    std::size_t places = 1;
    std::vector<access::Cover> covers;
    std::vector<double> travel;
};

// Places, the ways between them, covers, and where the hunt begins; needs nothing read before.
void read_workshop(const Member& file, Reading& reading);

// A number that refers to one of `count` things, or 0 with a finding. `what`: such a thing, in a word.
std::size_t read_number(const Member& reference, std::size_t count, const char* what, Reading& reading);
// A list of covers; none where it is left out.
access::CoverSet read_covers(const Member& list, Reading& reading);
// Says so where a list has not `wanted` entries; `entry`: one of them, in a word; `each`:
// what was expected.
void check_length(const Member& list, std::size_t wanted, const char* entry, const char* each,
                  Reading& reading);

}  // namespace halfsplit::matrix
