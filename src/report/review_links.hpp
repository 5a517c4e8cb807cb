// Links from what is said of a record to the step on the page that shows it.
#pragma once

#include "halfsplit/job/event.hpp"

#include <set>
#include <string>
#include <string_view>

namespace halfsplit::report {

class Links {
  public:
    void add(job::Sequence sequence) { on_the_page_.insert(sequence); }
    // Text as it is shown, with each "record N" that is on the page a link to it.
    std::string text(std::string_view words) const;
    // The bare number, a link where the record is on the page.
    std::string number(job::Sequence sequence) const;

  private:
    std::set<job::Sequence> on_the_page_;
};

// The anchor of a record: "record-12".
std::string anchor_of(job::Sequence sequence);

}  // namespace halfsplit::report
