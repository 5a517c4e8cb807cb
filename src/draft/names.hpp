// Names of a source made fit for a harness file, where they have to be written in another way.
#pragma once

#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>

namespace halfsplit::draft {

// The text cut to so many characters.
std::string cut_to(std::string_view text, std::size_t characters);

// A name or a title, cut to what the format has room for.
std::string fitting_words(std::string_view words);

class NameMaker {
  public:
    // An id that was not given before: what an id cannot have becomes "-", and "-2" and so on makes it
    // unique. `otherwise` where nothing is left.
    std::string id(std::string_view wanted, std::string_view otherwise);
    // A cavity of a part, the same for the same one.
    std::string cavity(std::size_t part, const std::string& cavity);

  private:
    std::set<std::string> ids_;
    std::map<std::pair<std::size_t, std::string>, std::string> cavities_;
    std::map<std::size_t, std::set<std::string>> taken_;  // cavities by part
};

}  // namespace halfsplit::draft
