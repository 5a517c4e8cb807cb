// Members of a JSON object, each asked for by name and type, and none left over at the end.
#pragma once

#include <nlohmann/json.hpp>

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace halfsplit::job {

// Every member throws std::invalid_argument, in words that name the object and the member.
class Members {
  public:
    // `what` is what the object is, for messages: "event", "record". Keeps a reference to `json`.
    Members(const nlohmann::json& json, std::string what);

    bool has(const std::string& name) const;
    std::string text(const std::string& name);
    std::vector<std::string> texts(const std::string& name);
    bool truth(const std::string& name);
    // From 1.
    std::uint64_t whole(const std::string& name);
    // From 0.
    std::uint64_t count(const std::string& name);
    double finite(const std::string& name);
    // Finite, or infinity written as the string "OL".
    double figure(const std::string& name);
    const nlohmann::json& any(const std::string& name);

    // The position of the text among `words`.
    template <typename Words>
    std::size_t one_of(const std::string& name, const Words& words) {
        const std::string found = text(name);
        for (std::size_t i = 0; i < std::size(words); ++i) {
            if (words[i] == found) return i;
        }
        refuse(name, "holds \"" + found + "\", which is not known to this version");
    }

    void nothing_else() const;
    [[noreturn]] void refuse(const std::string& name, const std::string& what_is_wrong) const;

  private:
    const nlohmann::json& json_;
    std::string what_;
    std::set<std::string> asked_;
};

}  // namespace halfsplit::job
