#include "base/compiled_schema.hpp"

#include "halfsplit/base/schema.hpp"
#include "halfsplit/base/text.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <deque>
#include <limits>
#include <map>
#include <mutex>
#include <string>
#include <utility>
#include <vector>

namespace halfsplit {

// Named, for CompiledSchema::Parts is made of it.
namespace schema_parts {

using nlohmann::json;

enum Type : unsigned { Null = 1, Boolean = 2, Integer = 4, Number = 8, String = 16, Array = 32, Object = 64 };

static unsigned type_named(const std::string& name) {
    static const std::map<std::string, unsigned> types{
        {"null", Null},     {"boolean", Boolean}, {"integer", Integer}, {"number", Integer | Number},
        {"string", String}, {"array", Array},     {"object", Object}};
    return types.at(name);
}

static unsigned type_of_value(const json& value) {
    switch (value.type()) {
        case json::value_t::null:
            return Null;
        case json::value_t::boolean:
            return Boolean;
        case json::value_t::number_integer:
        case json::value_t::number_unsigned:
            return Integer;
        case json::value_t::number_float:
            return Number;
        case json::value_t::string:
            return String;
        case json::value_t::array:
            return Array;
        default:
            return Object;
    }
}

// One schema, its own keywords checked; what is below it by pointer.
struct Node {
    bool known = true;     // no keyword but those below
    unsigned types = ~0U;  // any of these
    std::vector<json> choices;
    double least = -std::numeric_limits<double>::infinity(), most = std::numeric_limits<double>::infinity();
    bool above_least = false, below_most = false;
    std::size_t shortest = 0, longest = std::numeric_limits<std::size_t>::max();  // of texts
    std::size_t fewest = 0, greatest = std::numeric_limits<std::size_t>::max();   // of lists
    std::vector<std::pair<std::string, const Node*>> members;                     // by name
    std::vector<std::string> required;
    bool others = true;  // members that are not among these
    const Node* items = nullptr;
    std::vector<const Node*> any_of;
    const Node* same_as = nullptr;
};

static bool accepts(const Node& node, const json& value);

static bool accepts_text(const Node& node, const std::string& text) {
    if (text.size() >= node.shortest && text.size() <= node.longest && node.shortest <= 1) return true;
    const std::size_t length = display_width(text);
    return length >= node.shortest && length <= node.longest;
}

static bool accepts_number(const Node& node, double value) {
    return (node.above_least ? value > node.least : value >= node.least) &&
           (node.below_most ? value < node.most : value <= node.most);
}

// Both lists of names are in order, so that one pass finds each member.
static bool accepts_object(const Node& node, const json::object_t& object) {
    auto known = node.members.begin();
    auto wanted = node.required.begin();
    for (const auto& [name, value] : object) {
        while (known != node.members.end() && known->first < name) ++known;
        const bool found = known != node.members.end() && known->first == name;
        if (found ? !accepts(*known->second, value) : !node.others) return false;
        if (wanted != node.required.end() && *wanted == name) ++wanted;
    }
    return wanted == node.required.end();
}

static bool accepts_list(const Node& node, const json::array_t& list) {
    if (list.size() < node.fewest || list.size() > node.greatest) return false;
    return node.items == nullptr || std::all_of(list.begin(), list.end(), [&](const json& entry) {
               return accepts(*node.items, entry);
           });
}

static bool accepts(const Node& node, const json& value) {
    if (node.same_as != nullptr) return accepts(*node.same_as, value);
    const unsigned type = type_of_value(value);
    if (!node.known || (node.types & type) == 0) return false;
    if (!node.choices.empty() &&
        std::find(node.choices.begin(), node.choices.end(), value) == node.choices.end())
        return false;
    if (!node.any_of.empty() && std::none_of(node.any_of.begin(), node.any_of.end(),
                                             [&](const Node* one) { return accepts(*one, value); }))
        return false;
    if (type == String) return accepts_text(node, value.get_ref<const std::string&>());
    if (type == Object) return accepts_object(node, value.get_ref<const json::object_t&>());
    if (type == Array) return accepts_list(node, value.get_ref<const json::array_t&>());
    return (type & (Integer | Number)) == 0 || accepts_number(node, value.get<double>());
}

}  // namespace schema_parts

using nlohmann::json;
using schema_parts::Node;

struct CompiledSchema::Parts {
    std::deque<Node> nodes;
    std::map<const json*, const Node*> made;  // so that a schema that names itself ends
    const Node* root = nullptr;

    const Node* make(const json& root_schema, const json& schema) {
        const auto known = made.find(&schema);
        if (known != made.end()) return known->second;
        Node& node = nodes.emplace_back();
        made[&schema] = &node;
        if (!schema.is_object()) {
            node.known = schema == json(true);
            return &node;
        }
        for (const auto& entry : schema.items())
            node.known = take(root_schema, entry.key(), entry.value(), node) && node.known;
        std::sort(node.members.begin(), node.members.end());
        std::sort(node.required.begin(), node.required.end());
        return &node;
    }

    // Whether the keyword is known.
    bool take(const json& root_schema, const std::string& keyword, const json& value, Node& node) {
        static const std::vector<std::string> said{"$schema", "$id",         "$comment",
                                                   "title",   "description", "definitions",
                                                   "pattern", "default",     "examples"};
        if (std::find(said.begin(), said.end(), keyword) != said.end()) return true;
        return take_below(root_schema, keyword, value, node) || take_bound(keyword, value, node);
    }

    bool take_below(const json& root_schema, const std::string& keyword, const json& value, Node& node) {
        if (keyword == "$ref") {
            const std::string target = value.get<std::string>();
            if (target.rfind("#/", 0) != 0) return false;
            node.same_as = make(root_schema, root_schema.at(json::json_pointer(target.substr(1))));
        } else if (keyword == "properties") {
            for (const auto& member : value.items())
                node.members.emplace_back(member.key(), make(root_schema, member.value()));
        } else if (keyword == "items" && value.is_object()) {
            node.items = make(root_schema, value);
        } else if (keyword == "anyOf") {
            for (const json& one : value) node.any_of.push_back(make(root_schema, one));
        } else {
            return false;
        }
        return true;
    }

    static bool take_bound(const std::string& keyword, const json& value, Node& node) {
        if (keyword == "type" && value.is_string()) {
            node.types = schema_parts::type_named(value.get<std::string>());
        } else if (keyword == "required") {
            node.required = value.get<std::vector<std::string>>();
        } else if (keyword == "additionalProperties" && value.is_boolean()) {
            node.others = value.get<bool>();
        } else if (keyword == "const") {
            node.choices = {value};
        } else if (keyword == "enum") {
            node.choices = value.get<std::vector<json>>();
        } else if (keyword == "minimum" || keyword == "exclusiveMinimum") {
            node.least = value.get<double>();
            node.above_least = keyword != "minimum";
        } else if (keyword == "maximum" || keyword == "exclusiveMaximum") {
            node.most = value.get<double>();
            node.below_most = keyword != "maximum";
        } else {
            return take_size(keyword, value, node);
        }
        return true;
    }

    static bool take_size(const std::string& keyword, const json& value, Node& node) {
        const std::map<std::string, std::size_t Node::*> sizes{{"minLength", &Node::shortest},
                                                               {"maxLength", &Node::longest},
                                                               {"minItems", &Node::fewest},
                                                               {"maxItems", &Node::greatest}};
        const auto found = sizes.find(keyword);
        if (found == sizes.end()) return false;
        node.*found->second = value.get<std::size_t>();
        return true;
    }
};

CompiledSchema::CompiledSchema(const json& schema) {
    auto parts = std::make_unique<Parts>();
    parts->root = parts->make(schema, schema);
    parts->made.clear();  // the schema itself goes
    parts_ = std::move(parts);
}

CompiledSchema::~CompiledSchema() = default;
CompiledSchema::CompiledSchema(CompiledSchema&&) noexcept = default;

bool CompiledSchema::surely_accepts(const json& document) const {
    return schema_parts::accepts(*parts_->root, document);
}

const CompiledSchema& compiled_schema(std::string_view name) {
    static std::mutex guard;
    static std::map<std::string, CompiledSchema, std::less<>> compiled;
    const std::lock_guard lock(guard);
    const auto known = compiled.find(name);
    if (known != compiled.end()) return known->second;
    return compiled.emplace(name, CompiledSchema(json::parse(schema_text(name)))).first->second;
}

}  // namespace halfsplit
