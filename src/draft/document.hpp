// The harness file while it is made from a sheet, and where in the sheet each of its values was written.
#pragma once

#include "halfsplit/base/origins.hpp"

#include "draft/chain.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::draft {

enum class Kind { Module, Connector, Splice, Terminator, Plug, Socket };

// The word that may stand before a name: "module", "connector", ..., "plug"; and the kind that a word names.
std::string kind_word(Kind kind);
std::optional<Kind> read_kind(std::string_view word);

struct Thing {
    std::string id;
    Kind kind = Kind::Module;
    std::string pointer;  // of its object in the file
};

class Document {
  public:
    Document();

    Json& head() { return head_; }  // title, vehicle, note, start, travel, assumptions, include
    Json& list(const std::string& name) { return lists_[name]; }
    // Appends to a list and hands back the pointer of the new entry.
    std::string append(const std::string& name, Json entry, const At& at);

    Thing& add_thing(Kind kind, const std::string& id, const At& at);
    // Exactly, or without regard to case where that leaves one only.
    Thing* find(std::string_view id);
    std::vector<std::string> thing_ids() const;
    Json& at(const std::string& pointer);  // of an entry of a list, or of the socket
    const std::vector<Thing>& things() const { return things_; }

    void place(const std::string& pointer, const At& at) { places_[pointer] = at; }
    const std::map<std::string, At>& places() const { return places_; }

    // In the order in which the format is documented, empty lists left out.
    Json whole() const;
    // The same for any harness file: its members, and those of their entries.
    static Json in_order(const Json& file);

  private:
    Json head_, socket_;
    std::map<std::string, Json> lists_;
    std::vector<Thing> things_;
    std::map<std::string, std::vector<std::size_t>> by_lower_;  // by id in small letters
    std::map<std::string, At> places_;
};

// Where a part is reached: at the half, or the part itself.
Stand stand_of(const Json& part, char half);
// {"place": .., "covers": [..]} with the minutes that are said.
Json access_to_json(const Stand& stand, const Minutes& minutes);

// The places of a document that was made from a sheet.
class SheetOrigins : public Origins {
  public:
    SheetOrigins(std::string_view text, std::string file_name, const std::map<std::string, At>& places)
        : text_(text), file_name_(std::move(file_name)), places_(places) {}
    const std::string& file_name() const override { return file_name_; }
    std::vector<Location> locate(const std::vector<Spot>& spots) const override;
    void quote(std::vector<Finding>& findings) const override;

  private:
    std::string_view text_;
    std::string file_name_;
    const std::map<std::string, At>& places_;
};

}  // namespace halfsplit::draft
