// JSON text to a document, with a handler of our own so that depth, size and duplicate names are bounded on
// the way.
#include "halfsplit/base/json_text.hpp"
#include "halfsplit/base/text.hpp"

#include <nlohmann/json.hpp>

#include "base/json_mistake.hpp"
#include "base/json_scan.hpp"

#include <unordered_set>
#include <utility>

namespace halfsplit {

namespace {

using nlohmann::json;

// Builds the document. Returning false stops the parser: at a syntax mistake, or beyond a limit.
class Builder final : public json::json_sax_t {
  public:
    enum class Stop { No, Syntax, Depth, Size };

    bool null() override { return add(nullptr); }
    bool boolean(bool value) override { return add(value); }
    bool number_integer(number_integer_t value) override { return add(value); }
    bool number_unsigned(number_unsigned_t value) override { return add(value); }
    bool number_float(number_float_t value, const string_t&) override { return add(value); }
    bool string(string_t& value) override { return add(std::move(value)); }
    bool binary(binary_t&) override { return false; }
    bool start_object(std::size_t) override { return open(json::object()); }
    bool start_array(std::size_t) override { return open(json::array()); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }
    bool key(string_t& name) override {
        name_ = std::move(name);
        return true;
    }
    bool parse_error(std::size_t position, const std::string&, const json::exception& error) override {
        const bool after_end =
            std::string_view(error.what()).find("expected end of input") != std::string_view::npos;
        mistake_ = {position, error.id == number_out_of_range, after_end};
        return halt(Stop::Syntax);
    }

    Stop stop() const { return stop_; }
    bool duplicates() const { return duplicates_; }
    const ParserMistake& mistake() const { return mistake_; }
    json take() { return std::move(root_); }

  private:
    static constexpr int number_out_of_range = 406;  // nlohmann_json's own number for it

    bool halt(Stop why) {
        stop_ = why;
        return false;
    }

    // Null at a duplicate name: the value goes nowhere, and the text is refused in the end.
    json* put(json value) {
        if (open_.empty()) {
            root_ = std::move(value);
            return &root_;
        }
        json* parent = open_.back();
        if (parent == nullptr) return nullptr;
        if (parent->is_array()) {
            parent->push_back(std::move(value));
            return &parent->back();
        }
        const auto [member, fresh] =
            parent->get_ref<json::object_t&>().emplace(std::move(name_), std::move(value));
        duplicates_ = duplicates_ || !fresh;
        return fresh ? &member->second : nullptr;
    }

    bool add(json value) {
        if (++values_ > most_values) return halt(Stop::Size);
        put(std::move(value));
        return true;
    }

    bool open(json value) {
        if (open_.size() == deepest_nesting) return halt(Stop::Depth);
        if (++values_ > most_values) return halt(Stop::Size);
        open_.push_back(put(std::move(value)));
        return true;
    }

    bool close() {
        open_.pop_back();
        return true;
    }

    json root_;
    std::vector<json*> open_;
    std::string name_;
    std::size_t values_ = 0;
    bool duplicates_ = false;
    Stop stop_ = Stop::No;
    ParserMistake mistake_;
};

[[noreturn]] void refuse(std::vector<Finding> findings, std::string_view text) {
    quote_lines(findings, text);
    throw InputError(std::move(findings));
}

Finding finding_at(std::string_view text, std::size_t offset, const std::string& file_name, Finding finding) {
    finding.location = location_of_offset(text, offset, file_name);
    return finding;
}

std::size_t offset_of_depth(std::string_view text) {
    JsonScan scan(text);
    JsonToken token = scan.next();
    while (token.kind != JsonToken::Kind::End && scan.depth() <= deepest_nesting) token = scan.next();
    return token.offset;
}

Finding too_deep() {
    Finding finding;
    finding.id = "json-depth";
    finding.message = "the text is nested too deeply";
    finding.expected = "at most " + std::to_string(deepest_nesting) + " brackets inside one another";
    finding.next_step = "look for brackets that were opened by mistake from here on";
    return finding;
}

Finding too_many(const std::string& file_name) {
    Finding finding;
    finding.id = "json-size";
    finding.location.file = file_name;
    finding.message = "the text holds too many values";
    finding.expected = "at most " + std::to_string(most_values) + " of them";
    finding.next_step = "split the file, or check that it is the file you meant";
    return finding;
}

std::vector<Finding> duplicate_names(std::string_view text, const std::string& file_name) {
    using Kind = JsonToken::Kind;
    std::vector<Finding> findings;
    std::vector<std::unordered_set<std::string>> seen;
    JsonScan scan(text);
    for (JsonToken token = scan.next(); token.kind != Kind::End && findings.size() < 100;
         token = scan.next()) {
        if (token.kind == Kind::BeginObject || token.kind == Kind::BeginArray) {
            seen.emplace_back();
        } else if (token.kind == Kind::EndObject || token.kind == Kind::EndArray) {
            seen.pop_back();
        } else if (token.kind == Kind::Name && !seen.back().insert(unquoted(token.text)).second) {
            Finding finding;
            finding.id = "json-duplicate-name";
            finding.message = "the name " + std::string(token.text) + " stands twice in one object";
            finding.expected = "each name once";
            finding.next_step = "delete one of the two, or rename it";
            findings.push_back(finding_at(text, token.offset, file_name, std::move(finding)));
        }
    }
    return findings;
}

void check_encoding(std::string_view text, const std::string& file_name) {
    const std::size_t zero = text.find('\0');
    const std::size_t invalid = std::min(zero, find_invalid_utf8(text));
    if (invalid == std::string_view::npos) return;
    Finding finding;
    finding.id = "json-encoding";
    finding.message = invalid == zero ? "a zero byte in the text" : "a byte that is not UTF-8";
    finding.expected = "text in UTF-8";
    finding.next_step = "save the file again with the encoding UTF-8";
    refuse({finding_at(text, invalid, file_name, std::move(finding))}, text);
}

}  // namespace

json parse_json(std::string_view text, const std::string& file_name) {
    check_encoding(text, file_name);
    Builder builder;
    json::sax_parse(text, &builder);
    switch (builder.stop()) {
        case Builder::Stop::Syntax:
            refuse({explain_mistake(text, builder.mistake(), file_name)}, text);
        case Builder::Stop::Depth:
            refuse({finding_at(text, offset_of_depth(text), file_name, too_deep())}, text);
        case Builder::Stop::Size:
            refuse({too_many(file_name)}, text);
        case Builder::Stop::No:
            break;
    }
    if (builder.duplicates()) refuse(duplicate_names(text, file_name), text);
    return builder.take();
}

}  // namespace halfsplit
