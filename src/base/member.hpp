// Reading members of a document that may be wrong in any way: what is absent or of the wrong type reads as
// absent. Whether that is a mistake is the schema's business.
#pragma once

#include <nlohmann/json.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

// As many entries as the schema lets the longest list have; what is beyond is refused by it and not read.
inline constexpr std::size_t most_entries = 200'000;

class Member {
  public:
    Member(const nlohmann::json* value, std::string pointer) : value_(value), pointer_(std::move(pointer)) {}

    const std::string& pointer() const { return pointer_; }
    bool exists() const { return value_ != nullptr; }
    bool has(const char* name) const { return find(name) != nullptr; }
    Member operator[](const char* name) const { return {find(name), pointer_ + '/' + name}; }
    std::vector<Member> entries() const;  // of a list; otherwise empty

    bool is_null() const { return exists() && value_->is_null(); }
    bool is_text() const { return exists() && value_->is_string(); }
    bool is_list() const { return exists() && value_->is_array(); }
    std::size_t size() const { return is_list() ? value_->size() : 0; }
    bool is_object() const { return exists() && value_->is_object(); }
    std::string text() const { return is_text() ? value_->get<std::string>() : std::string(); }
    std::string text(const char* name, std::string_view fallback = {}) const;
    double number(const char* name, double fallback) const;
    bool flag(const char* name, bool fallback) const;
    // The value itself as a number, or the fallback.
    double number(double fallback) const;
    // The value itself as a whole number from 0 up.
    std::optional<std::size_t> index() const;
    // The value itself as it stands in the text, where it is a whole number; empty otherwise.
    std::string whole_number() const;

  private:
    const nlohmann::json* find(const char* name) const;

    const nlohmann::json* value_;
    std::string pointer_;
};

}  // namespace halfsplit
