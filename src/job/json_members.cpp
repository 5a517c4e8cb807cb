#include "json_members.hpp"

#include <cmath>
#include <limits>
#include <stdexcept>

namespace halfsplit::job {

Members::Members(const nlohmann::json& json, std::string what) : json_(json), what_(std::move(what)) {
    if (!json.is_object()) throw std::invalid_argument("the " + what_ + " is not an object");
}

bool Members::has(const std::string& name) const {
    return json_.contains(name);
}

const nlohmann::json& Members::any(const std::string& name) {
    asked_.insert(name);
    const auto found = json_.find(name);
    if (found == json_.end())
        throw std::invalid_argument("the " + what_ + " lacks its member \"" + name + "\"");
    return *found;
}

std::string Members::text(const std::string& name) {
    const nlohmann::json& value = any(name);
    if (!value.is_string()) refuse(name, "is not text");
    return value.get<std::string>();
}

std::vector<std::string> Members::texts(const std::string& name) {
    const nlohmann::json& value = any(name);
    if (!value.is_array()) refuse(name, "is not a list");
    std::vector<std::string> list;
    for (const nlohmann::json& item : value) {
        if (!item.is_string()) refuse(name, "holds something that is not text");
        list.push_back(item.get<std::string>());
    }
    return list;
}

bool Members::truth(const std::string& name) {
    const nlohmann::json& value = any(name);
    if (!value.is_boolean()) refuse(name, "is neither true nor false");
    return value.get<bool>();
}

std::uint64_t Members::whole(const std::string& name) {
    const nlohmann::json& value = any(name);
    if (!value.is_number_integer() || value < 1) refuse(name, "is not a whole number from 1");
    return value.get<std::uint64_t>();
}

std::uint64_t Members::count(const std::string& name) {
    const nlohmann::json& value = any(name);
    if (!value.is_number_unsigned()) refuse(name, "is not a whole number from 0");
    return value.get<std::uint64_t>();
}

double Members::finite(const std::string& name) {
    const nlohmann::json& value = any(name);
    if (!value.is_number()) refuse(name, "is not a number");
    return value.get<double>();
}

double Members::figure(const std::string& name) {
    if (any(name) == "OL") return std::numeric_limits<double>::infinity();
    return finite(name);
}

void Members::nothing_else() const {
    for (const auto& item : json_.items()) {
        if (asked_.count(item.key()) == 0) refuse(item.key(), "is not known to this version");
    }
}

void Members::refuse(const std::string& name, const std::string& what_is_wrong) const {
    throw std::invalid_argument("member \"" + name + "\" of the " + what_ + " " + what_is_wrong);
}

}  // namespace halfsplit::job
