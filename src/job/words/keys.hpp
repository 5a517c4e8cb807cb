// The part of an entry that is made of key=value words. A value goes on over the words after it up to the
// next key.
#pragma once

#include "input.hpp"

#include <string>
#include <vector>

namespace halfsplit::job {

class Keys {
  public:
    // Takes the first word of the entry; refuses when no key=value follows.
    Keys(Input& input, std::vector<std::string> known, std::string example);

    // Goes on to the next key; false at the end. Refuses a word that is no known key.
    bool next();
    const std::string& name() const { return name_; }
    const std::string& value() const { return value_; }
    // The value's parts between commas, blanks around them taken off.
    std::vector<std::string> list() const;
    // True for the first word, false for the second; refuses anything else.
    bool either(const std::string& yes, const std::string& no) const;

  private:
    bool at_known_key() const;

    Input& input_;
    std::vector<std::string> known_;
    std::string example_;
    std::string name_, value_;
};

}  // namespace halfsplit::job
