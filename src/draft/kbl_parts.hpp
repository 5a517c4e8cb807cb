// What wires end at in a KBL: connectors, splices, ring terminals, and the contacts of each.
#pragma once

#include "halfsplit/draft/loom.hpp"

#include "draft/kbl_file.hpp"
#include "draft/kbl_layout.hpp"

#include <string>
#include <unordered_map>
#include <vector>

namespace halfsplit::draft {

class KblParts {
  public:
    // Adds every part to the loom.
    KblParts(const KblFile& file, const KblLayout& layout, Loom& loom);

    // Where a wire ends that has this contact point; no part, and `why`, where the chain breaks.
    LoomEnd end_at(const std::string& contact_point, std::string& why) const;

  private:
    void add(pugi::xml_node occurrence, PartUse use);
    void enter_contacts(pugi::xml_node occurrence, std::size_t part);
    std::string cavity_name(pugi::xml_node contact, std::string& why) const;
    void place(pugi::xml_node occurrence, LoomPart& part) const;
    void mate();
    void mate(std::size_t part, std::size_t other);

    struct Contact {
        LoomEnd end;
        std::string why;  // why it cannot be used
    };
    const KblFile& file_;
    const KblLayout& layout_;
    Loom& loom_;
    std::vector<pugi::xml_node> occurrences_;                 // by part
    std::unordered_map<std::string, Contact> contacts_;       // by id
    std::unordered_map<std::string, std::size_t> slot_part_;  // part by id of its slot
};

}  // namespace halfsplit::draft
