#include "base/member.hpp"

#include <algorithm>
#include <cstdint>

namespace halfsplit {

const nlohmann::json* Member::find(const char* name) const {
    if (!is_object()) return nullptr;
    const auto found = value_->find(name);
    return found == value_->end() ? nullptr : &*found;
}

std::vector<Member> Member::entries() const {
    std::vector<Member> all;
    if (!exists() || !value_->is_array()) return all;
    all.reserve(std::min(value_->size(), most_entries));
    for (const nlohmann::json& entry : *value_) {
        if (all.size() == most_entries) break;
        all.emplace_back(&entry, pointer_ + '/' + std::to_string(all.size()));
    }
    return all;
}

std::string Member::text(const char* name, std::string_view fallback) const {
    const nlohmann::json* value = find(name);
    return value != nullptr && value->is_string() ? value->get<std::string>() : std::string(fallback);
}

double Member::number(const char* name, double fallback) const {
    const nlohmann::json* value = find(name);
    return value != nullptr && value->is_number() ? value->get<double>() : fallback;
}

bool Member::flag(const char* name, bool fallback) const {
    const nlohmann::json* value = find(name);
    return value != nullptr && value->is_boolean() ? value->get<bool>() : fallback;
}

double Member::number(double fallback) const {
    return exists() && value_->is_number() ? value_->get<double>() : fallback;
}

std::optional<std::size_t> Member::index() const {
    if (!exists() || !value_->is_number_integer()) return std::nullopt;
    if (!value_->is_number_unsigned() && value_->get<std::int64_t>() < 0) return std::nullopt;
    return value_->get<std::size_t>();
}

std::string Member::whole_number() const {
    return exists() && value_->is_number_integer() ? value_->dump() : std::string();
}

}  // namespace halfsplit
