// Pieces of a review in words, used by several of its sections.
#pragma once

#include "halfsplit/advice/review.hpp"

#include <string>
#include <vector>

namespace halfsplit::report {

std::string listed_words(const std::vector<advice::Named>& all);
std::string record_words(job::Sequence sequence);  // "record 12"
// "battery off; apart: M2; after 1 repair". The supply is told where `electric`: it matters to a meter, not
// to the eye.
std::string state_words(const job::CircuitState& state, bool electric);
std::string told_words(const advice::Told& told);           // "1.2 bit"
std::string outlook_words(const advice::Outlook& outlook);  // "4 parts: X2 60 %, W5 30 %, W4 5 % and 1 more"
std::string bits_words(double bits);                        // "2.4 bit", "no doubt"
std::string detour_words(const advice::Detour& detour);     // what was advised, and what leaving it cost
std::string correction_words(job::Sequence undone_by,
                             job::Sequence amended_by);          // "undone by record 15", or empty
std::string chance_words(const advice::ReviewedRepair& repair);  // "41 %, any fault of the part 99.8 %"
std::string proof_words(const advice::ReviewedRepair& repair);
std::string minutes_both_ways(double minutes);  // "1 h 12 min (72 min)"
std::string bare(std::string sentence);         // without its full stop

}  // namespace halfsplit::report
