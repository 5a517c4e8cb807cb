// Gathers what is wrong with a file while it is read; places come last, in one pass.
#pragma once

#include "halfsplit/base/finding.hpp"
#include "halfsplit/base/origins.hpp"

#include <string>
#include <vector>

namespace halfsplit {

struct Said {
    std::string message, expected, nearest, next;
    std::string first = {};  // pointer of an earlier place that the message should point to; empty: none
    Mend mend = {};
};

class Collector {
  public:
    void error(const char* id, const std::string& pointer, Said said) {
        add(id, Severity::Error, {pointer, false}, std::move(said));
    }
    void warning(const char* id, const std::string& pointer, Said said) {
        add(id, Severity::Warning, {pointer, false}, std::move(said));
    }
    void note(const char* id, const std::string& pointer, Said said) {
        add(id, Severity::Note, {pointer, false}, std::move(said));
    }
    void add(std::string id, Severity severity, Spot spot, Said said);
    bool errors() const { return errors_; }

    // In order of line and column, those of the document's own file first; at most most_findings of them and
    // one that counts the rest.
    std::vector<Finding> placed(const Origins& origins) const;

  private:
    struct Waiting {
        Finding finding;
        Spot spot;
        std::string first;
    };
    std::vector<Waiting> waiting_;
    std::size_t left_out_ = 0;
    bool errors_ = false;
};

}  // namespace halfsplit
