#include "base/schema_words.hpp"

#include "halfsplit/base/json_text.hpp"
#include "halfsplit/base/text.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <functional>
#include <iterator>

namespace halfsplit {

namespace {

using nlohmann::json;

constexpr std::size_t most_told = 1000;

std::string type_of(const json& value) {
    if (value.is_number_integer()) return "integer";
    if (value.is_number()) return "number";
    return value.type_name();
}

bool is_of_type(const json& value, const std::string& type) {
    const std::string own = type_of(value);
    return own == type || (type == "number" && own == "integer");
}

std::string with_article(const std::string& type) {
    if (type == "boolean") return "true or false";
    if (type == "null") return "null";
    if (type == "number") return "a number";
    if (type == "string") return "text in double quotes";
    if (type == "array") return "a list, [ ... ]";
    if (type == "object") return "an object, { ... }";
    return "a whole number";
}

// What the value is, shortly: itself where it is short, otherwise its type.
std::string shown(const json& value) {
    if (value.is_structured()) return with_article(type_of(value));
    const std::string text = value.dump(-1, ' ', false, json::error_handler_t::replace);
    return text.size() <= 40 ? text : with_article(type_of(value));
}

const json& resolved(const json& root, const json& schema) {
    const json* at = &schema;
    for (int hops = 0; hops < 16 && at->contains("$ref"); ++hops) {
        at = &root.at(json::json_pointer(at->at("$ref").get<std::string>().substr(1)));
    }
    return *at;
}

// The alternative of an anyOf whose type is the value's; the schema itself where there is none.
const json& chosen(const json& root, const json& schema, const json& value) {
    const json& here = resolved(root, schema);
    if (!here.contains("anyOf")) return here;
    for (const json& alternative : here.at("anyOf")) {
        const json& candidate = resolved(root, alternative);
        if (candidate.contains("type") && is_of_type(value, candidate.at("type"))) return candidate;
    }
    return here;
}

// A member's own description, or that of its type.
std::string description_of(const json& root, const json& schema) {
    return schema.value("description", resolved(root, schema).value("description", ""));
}

// A value, the schema that it has to satisfy, and where it stands.
struct Place {
    const json* value = nullptr;
    const json* schema = nullptr;
    std::string pointer;
    std::string description;
};

Place place_below(const json& root, const json& schema, const json& value, std::string pointer) {
    return {&value, &chosen(root, schema, value), std::move(pointer), description_of(root, schema)};
}

// The values directly below that the schema says something about, in the order of the document; of a list
// that is too long, as many as may be.
std::vector<Place> places_below(const json& root, const Place& place) {
    std::vector<Place> below;
    if (place.value->is_array() && place.schema->contains("items")) {
        const std::size_t most = place.schema->value("maxItems", place.value->size());
        for (const json& entry : *place.value) {
            if (below.size() == most) break;
            const std::string pointer = place.pointer + '/' + std::to_string(below.size());
            below.push_back(place_below(root, place.schema->at("items"), entry, pointer));
        }
    } else if (place.value->is_object() && place.schema->contains("properties")) {
        const json& known = place.schema->at("properties");
        for (const auto& [name, value] : place.value->items()) {
            const auto found = known.find(name);
            if (found == known.end()) continue;
            below.push_back(place_below(root, *found, value, place.pointer + '/' + pointer_token(name)));
        }
    }
    return below;
}

// What is wrong with one value itself, not with anything below it.
class Explanation {
  public:
    Explanation(const json& root, const Place& place, std::vector<SchemaViolation>& found)
        : root_(root),
          pointer_(place.pointer),
          schema_(*place.schema),
          value_(*place.value),
          description_(place.description),
          found_(found) {}

    // Says what is wrong; false where nothing below the value needs to be looked at.
    bool tell() {
        if (wrong_type()) return false;
        choice();
        number();
        size();
        members();
        return true;
    }

  private:
    struct Words {
        std::string message, expected, nearest, mend = {};
    };

    void say(const char* id, const std::string& pointer, Words words) {
        found_.push_back({id, pointer, std::move(words.message), std::move(words.expected),
                          std::move(words.nearest), std::move(words.mend)});
    }

    // About the value itself: what the schema says of it belongs to what was expected.
    void say(const char* id, Words words) {
        if (!description_.empty()) words.expected += (words.expected.empty() ? "" : "; ") + description_;
        say(id, pointer_, std::move(words));
    }

    bool wrong_type() {
        std::vector<std::string> types;
        if (schema_.contains("type")) {
            types.push_back(schema_.at("type"));
        } else if (schema_.contains("anyOf")) {
            for (const json& alternative : schema_.at("anyOf")) {
                if (alternative.contains("type")) types.push_back(alternative.at("type"));
            }
        }
        if (types.empty()) return false;
        const auto fits = [this](const std::string& type) { return is_of_type(value_, type); };
        if (std::any_of(types.begin(), types.end(), fits)) return false;
        std::vector<std::string> words;
        std::transform(types.begin(), types.end(), std::back_inserter(words), with_article);
        say("wrong-type",
            {shown(value_) + " is not of the right kind", join(words, " or "), "", out_of_quotes(types)});
        return true;
    }

    static std::string certain(const std::string& name, const std::vector<std::string>& names) {
        const std::string known = certain_name(name, names);
        return known.empty() ? known : json(known).dump();
    }

    // A number that stands in quotes where a number is wanted; otherwise empty.
    std::string out_of_quotes(const std::vector<std::string>& types) const {
        if (!value_.is_string()) return {};
        const json number = json::parse(value_.get_ref<const std::string&>(), nullptr, false);
        if (!number.is_number()) return {};
        const auto takes = [&](const std::string& type) {
            return type != "string" && is_of_type(number, type);
        };
        return std::any_of(types.begin(), types.end(), takes) ? value_.get<std::string>() : std::string();
    }

    void choice() {
        if (schema_.contains("const") && schema_.at("const") != value_) {
            say("not-a-choice",
                {shown(value_) + " is not what must stand here", shown(schema_.at("const")), ""});
        }
        if (!schema_.contains("enum")) return;
        const json& choices = schema_.at("enum");
        if (std::find(choices.begin(), choices.end(), value_) != choices.end()) return;
        std::vector<std::string> names;
        std::vector<std::string> words;
        for (const json& entry : choices) {
            words.push_back(shown(entry));
            if (entry.is_string()) names.push_back(entry);
        }
        const std::string nearest = value_.is_string() ? nearest_name(value_.get<std::string>(), names) : "";
        say("not-a-choice",
            {shown(value_) + " is not one of the choices", "one of " + join(words, ", "), nearest,
             certain(value_.is_string() ? value_.get<std::string>() : std::string(), names)});
    }

    void number() {
        if (!value_.is_number()) return;
        const double value = value_.get<double>();
        const auto bound = [&](const char* keyword, auto broken, const std::string& words) {
            if (!schema_.contains(keyword) || !broken(value, schema_.at(keyword).get<double>())) return;
            say("out-of-range",
                {shown(value_) + " is out of range", words + ' ' + schema_.at(keyword).dump(), ""});
        };
        bound("minimum", std::less<>(), "at least");
        bound("exclusiveMinimum", std::less_equal<>(), "more than");
        bound("maximum", std::greater<>(), "at most");
        bound("exclusiveMaximum", std::greater_equal<>(), "less than");
    }

    void size() {
        const bool text = value_.is_string();
        if (!text && !value_.is_array()) return;
        const std::size_t size = text ? display_width(value_.get_ref<const std::string&>()) : value_.size();
        const std::string unit = text ? " characters" : " entries";
        const std::string least = text ? "minLength" : "minItems";
        const std::string most = text ? "maxLength" : "maxItems";
        const std::string have = std::to_string(size) + unit;
        if (schema_.contains(least) && size < schema_.at(least).get<std::size_t>()) {
            say("out-of-range", {have + " are too few", "at least " + schema_.at(least).dump(), ""});
        }
        if (schema_.contains(most) && size > schema_.at(most).get<std::size_t>()) {
            say("out-of-range", {have + " are too many", "at most " + schema_.at(most).dump(), ""});
        }
    }

    void members() {
        if (!value_.is_object()) return;
        const json known = schema_.value("properties", json::object());
        const std::vector<std::string> misspelt = unknown_members(known);
        if (!schema_.contains("required")) return;
        for (const json& entry : schema_.at("required")) {
            const std::string name = entry;
            const bool told = std::find(misspelt.begin(), misspelt.end(), name) != misspelt.end();
            if (told || value_.contains(name)) continue;
            const std::string what = known.contains(name) ? description_of(root_, known.at(name)) : "";
            say("missing-member", pointer_, {"the member \"" + name + "\" is missing", what, ""});
        }
    }

    // The members that the schema does not know; returns the known names that were most likely meant.
    std::vector<std::string> unknown_members(const json& known) {
        std::vector<std::string> meant;
        if (schema_.value("additionalProperties", json(true)) != json(false)) return meant;
        std::vector<std::string> names;
        for (const auto& member : known.items()) names.push_back(member.key());
        for (const auto& member : value_.items()) {
            if (known.contains(member.key())) continue;
            if (meant.size() == most_told) break;
            const std::string name = member.key().substr(0, 60);
            meant.push_back(nearest_name(name, names));
            say("unknown-member", pointer_ + '/' + pointer_token(member.key()),
                {"no member here is named \"" + name + '"', "one of " + join(names, ", "), meant.back(),
                 value_.contains(meant.back()) ? std::string() : certain(name, names)});
        }
        return meant;
    }

    const json& root_;
    std::string pointer_;
    const json& schema_;
    const json& value_;
    std::string description_;
    std::vector<SchemaViolation>& found_;
};

}  // namespace

std::vector<SchemaViolation> explain(const json& document, const json& schema) {
    std::vector<SchemaViolation> found;
    std::vector<Place> open{place_below(schema, schema, document, "")};
    while (!open.empty() && found.size() < most_told) {
        const Place place = std::move(open.back());
        open.pop_back();
        if (!Explanation(schema, place, found).tell()) continue;
        std::vector<Place> below = places_below(schema, place);
        std::move(below.rbegin(), below.rend(), std::back_inserter(open));
    }
    return found;
}

}  // namespace halfsplit
