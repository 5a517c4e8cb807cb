#include "halfsplit/report/review.hpp"

#include "report/review_sections.hpp"

namespace halfsplit::report {

std::string review_text(const advice::Review& review, std::size_t columns) {
    Page page(columns);
    add_summary(review, page);
    add_steps(review, page);
    add_proofs(review, page);
    add_detours(review, page);
    add_contradictions(review, page);
    add_weak_evidence(review, page);
    add_repeats(review, page);
    add_open_ends(review, page);
    add_minutes(review, page);
    add_log(review, page);
    return page.text();
}

}  // namespace halfsplit::report
