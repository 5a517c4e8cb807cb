// Which record undid or amended which, for records that stay visible although they no longer count as they
// stand.
#pragma once

#include "halfsplit/job/event.hpp"

#include "job/resolve.hpp"

#include <vector>

namespace halfsplit::advice {

struct Correction {
    job::Sequence undone_by = 0, amended_by = 0;  // the newest that counts; 0: none
};

// By position of the record. A record that another implied shares its corrections.
std::vector<Correction> corrections(const std::vector<job::Record>& records,
                                    const std::vector<job::Resolved>& resolved);

}  // namespace halfsplit::advice
