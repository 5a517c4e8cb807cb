// The pieces of a sheet that is written from a harness file.
#pragma once

#include "draft/things.hpp"

#include <set>
#include <string>
#include <unordered_map>
#include <vector>

namespace halfsplit::draft {

// "title ..." to the ways between places.
std::string surroundings_text(const Json& file);

// "@driver/kick", "@/kick" where the place is the same; empty where nothing changes.
std::string stand_word(const Stand& stand, const Stand& before);
std::string minutes_word(const Minutes& minutes);
Minutes minutes_of(const Json& access);
// Marks, option and weight of a part, each with a blank before it.
std::string quality_words(const Json& part);
std::string pair_word(const Pair& pair, bool single);
// On one line, whatever it was.
std::string one_line(const std::string& text);

// One network: its line, its hops, what hangs on nothing.
class BusWriter {
  public:
    BusWriter(const Json& file, std::size_t network, std::set<std::string>& known);
    std::string text() &&;

  private:
    struct Met {
        const Json* part = nullptr;
        Kind kind = Kind::Module;
    };

    void bus_line();
    void write_run(const Json& run);
    void write_rest();
    void write_plugs();
    Met find(const std::string& id) const;
    bool known_here(const std::string& id) const;
    std::optional<End> end_of(const Json& run, const char* which) const;
    std::vector<Pair> pairs_of(const Met& met) const;
    std::string go_to(const End& from);
    std::string wire_words(const Json& run);
    // The thing's words, and what they do to the chain.
    std::string thing_words(const End& end, bool as_start);
    std::string new_thing(const Met& met, const End& end, bool as_start);
    std::string bus_words(const Met& met) const;
    std::string part_words(const Met& met);
    void start_at(const std::string& id, const End& end);
    void pass(const End& end, const Met& met, bool as_start, bool fresh);
    std::string names_after_comma(const Met& met);

    const Json& file_;
    const Json& network_;
    std::unordered_map<std::string, Met> parts_;
    std::set<std::string>& known_;  // ids named so far, on any bus
    std::set<std::string> here_;    // those named on this one
    bool single_ = false;
    std::string prefix_ = "W";
    std::size_t runs_ = 0;
    Chain chain_;
    std::string text_, later_;
};

}  // namespace halfsplit::draft
