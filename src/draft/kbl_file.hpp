// A KBL text as a tree of elements, with its ids, within bounds.
#pragma once

#include "base/collector.hpp"

#include <optional>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

namespace halfsplit::draft {

class KblFile {
  public:
    // Errors become findings, placed by offsets of `text`.
    KblFile(std::string_view text, Collector& findings);

    pugi::xml_node root() const { return document_.document_element(); }
    pugi::xml_node harness() const { return root().child("Harness"); }

    // The element with the id, or none: unknown, or given to several.
    pugi::xml_node find(std::string_view id) const;
    // Why find gave none: "X is not in the file", "X stands there twice".
    std::string why_not(std::string_view id) const;

    // In the text that was read.
    std::size_t offset(pugi::xml_node node) const;

  private:
    bool load(std::string_view text, Collector& findings);
    bool check_kind(Collector& findings) const;
    void enter_ids(Collector& findings);

    std::size_t mark_ = 0;  // length of the byte order mark
    pugi::xml_document document_;
    std::unordered_map<std::string_view, pugi::xml_node> by_id_;
    std::unordered_set<std::string_view> twice_;
};

// The text of a child element without blanks at its ends; empty where there is none, and for "/NULL", which
// says so.
std::string kbl_text(pugi::xml_node node, const char* child);
// The ids in a child element that refers to others.
std::vector<std::string> kbl_references(pugi::xml_node node, const char* child);
// "Connector_occurrence id_316_0".
std::string kbl_name(pugi::xml_node node);

}  // namespace halfsplit::draft
