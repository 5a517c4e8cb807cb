// The ids of one kind of thing in a file.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include "base/collector.hpp"
#include "base/member.hpp"

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace halfsplit::harness {

// Whether a text can be an id or, with dots, a cavity: letters, digits, "_", "+" and "-", none of them first.
bool is_name(std::string_view text, bool dots = false);

// Whether an id would mean something else where readings and answers are typed.
bool is_reserved(std::string_view id);

class NameBook {
  public:
    explicit NameBook(std::string kind) : kind_(std::move(kind)) {}

    // Enters the "id" of `thing` for `index`; a bad or a second one is a finding, and so is one that stands
    // in `other`.
    void enter(const Member& thing, Index index, Collector& findings, const NameBook* other = nullptr);

    Index find(const std::string& id) const;

    // The index of the thing that `reference` names, or none. An unknown name is a finding; an absent
    // reference, or one that is no text, is the schema's business.
    Index resolve(const Member& reference, Collector& findings);

    // The nearest id, or empty. Looks for it only so often, because every look reads all ids.
    std::string nearest(const std::string& id);

  private:
    struct Entry {
        Index index = none;
        std::string pointer;
    };
    std::string kind_;
    std::unordered_map<std::string, Entry> entries_;
    std::vector<std::string> ids_;
    std::size_t comparisons_left_ = 500'000;
};

}  // namespace halfsplit::harness
