#include "harness/names.hpp"

#include "halfsplit/base/text.hpp"

#include <algorithm>
#include <array>

namespace halfsplit::harness {

namespace {

// Words that mean something else where an id could stand, when readings and answers are typed.
constexpr std::array<std::string_view, 6> reserved{"all", "silent", "none", "ground", "supply", "clip"};

}  // namespace

bool is_name(std::string_view text, bool dots) {
    const auto plain = [](char c) {
        return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
    };
    const auto fits = [&](char c) {
        return plain(c) || c == '_' || c == '+' || c == '-' || (dots && c == '.');
    };
    if (text.empty() || !std::all_of(text.begin(), text.end(), fits)) return false;
    return plain(text.front()) || (dots && text.front() != '.');
}

bool is_reserved(std::string_view id) {
    return std::find(reserved.begin(), reserved.end(), id) != reserved.end();
}

void NameBook::enter(const Member& thing, Index index, Collector& findings, const NameBook* other) {
    const Member member = thing["id"];
    const std::string id = member.text();
    if (id.empty()) return;
    if (!is_name(id)) {
        findings.error(
            "bad-name", member.pointer(),
            {"\"" + id + "\" cannot be an id", "letters, digits, _ + and -, a letter or digit first", "",
             "rename it, and put words into \"name\""});
        return;
    }
    if (is_reserved(id)) {
        findings.error("bad-name", member.pointer(),
                       {"\"" + id + "\" cannot be an id: the word has a meaning of its own in entries",
                        "another id", "", "rename it"});
        return;
    }
    const auto [entry, fresh] = entries_.emplace(id, Entry{index, member.pointer()});
    if (fresh) ids_.push_back(id);
    const Entry* earlier = fresh ? nullptr : &entry->second;
    std::string kind = kind_;
    if (fresh && other != nullptr && other->entries_.contains(id)) {
        earlier = &other->entries_.at(id);
        kind = other->kind_;
    }
    if (earlier == nullptr) return;
    findings.error("duplicate-id", member.pointer(),
                   {"there is already a " + kind + " with the id \"" + id + "\"", "each id once", "",
                    "rename one of the two", earlier->pointer});
}

Index NameBook::find(const std::string& id) const {
    const auto found = entries_.find(id);
    return found == entries_.end() ? none : found->second.index;
}

Index NameBook::resolve(const Member& reference, Collector& findings) {
    const std::string id = reference.text();
    if (id.empty()) return none;
    const Index index = find(id);
    if (index == none) {
        const std::string near = nearest(id);
        const std::string certain = near.empty() ? near : certain_name(id, ids_);
        findings.error("unknown-reference", reference.pointer(),
                       {"no " + kind_ + " has the id \"" + id + "\"",
                        "the id of a " + kind_ + " of this file",
                        near,
                        "correct the name, or add the " + kind_,
                        {},
                        replace_by_name(certain)});
    }
    return index;
}

std::string NameBook::nearest(const std::string& id) {
    if (ids_.size() > comparisons_left_) return {};
    comparisons_left_ -= ids_.size();
    return nearest_name(id, ids_);
}

}  // namespace halfsplit::harness
