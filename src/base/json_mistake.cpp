#include "base/json_mistake.hpp"

#include "halfsplit/base/text.hpp"

#include "base/json_scan.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace halfsplit {

namespace {

struct Words {
    std::string message, expected, next_step;
};

// The mistake's surroundings: the token in which the parser stopped and what stands before it.
struct Stop {
    std::string_view text;
    std::size_t at = 0;      // the byte that the parser could not take; the text's size at its end
    std::size_t start = 0;   // where its token begins
    std::string_view token;  // empty at the end of the text
    char before = 0;         // last byte before the token that is not blank; 0 at the start of the text
    bool in_object = false;
};

constexpr std::string_view blanks = " \t\r\n";

bool ends_value(char c) {
    return c == '"' || c == '}' || c == ']' || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z');
}

// Whether the parser, stopping just behind this token, has a grievance with the token itself: a number that
// breaks off, or at the end of the text a string that perhaps never ends.
bool belongs_to(std::string_view token, bool at_end) {
    if (token[0] == '"') return at_end;
    const bool number = token[0] == '-' || (token[0] >= '0' && token[0] <= '9');
    return number && !at_end && std::string_view(".eE+-").find(token.back()) != std::string_view::npos;
}

Stop stop_at(std::string_view text, std::size_t position) {
    Stop stop;
    stop.text = text;
    stop.at = std::min(position == 0 ? 0 : position - 1, text.size());
    stop.start = stop.at;
    if (stop.at < text.size()) stop.token = text.substr(stop.at, 1);
    JsonScan scan(text);
    using Kind = JsonToken::Kind;
    bool open_object = false;
    std::vector<bool> objects;  // of what is open, outermost first: whether it is an object
    for (JsonToken token = scan.next(); token.kind != Kind::End && token.offset <= stop.at;
         token = scan.next()) {
        open_object = !objects.empty() && objects.back();
        if (token.kind == Kind::BeginObject || token.kind == Kind::BeginArray) {
            objects.push_back(token.kind == Kind::BeginObject);
        } else if ((token.kind == Kind::EndObject || token.kind == Kind::EndArray) && !objects.empty()) {
            objects.pop_back();
        }
        const std::size_t end = token.offset + token.text.size();
        const bool broken_off = end == stop.at && belongs_to(token.text, stop.at == text.size());
        if (end <= stop.at && !broken_off) continue;
        stop.start = token.offset;
        stop.token = token.text;
        break;
    }
    stop.in_object = open_object;
    const std::size_t before =
        stop.start == 0 ? std::string_view::npos : text.find_last_not_of(blanks, stop.start - 1);
    if (before != std::string_view::npos) stop.before = text[before];
    return stop;
}

bool unclosed_string(std::string_view token) {
    return token.size() == 1 || token.back() != '"' || token[token.size() - 2] == '\\';
}

Words at_the_end(Stop& stop) {
    const std::string save = "check that the file was saved whole";
    if (stop.text.find_first_not_of(blanks) == std::string_view::npos) {
        return {"the text is empty", "a JSON object, { ... }", "check that this is the file you meant"};
    }
    if (!stop.token.empty() && unclosed_string(stop.token)) {
        return {"the text ends inside a string", "a closing double quote", save};
    }
    stop.start = stop.text.size();
    return {"the text ends too early", "the brackets that are still open closed", save};
}

Words in_string(Stop& stop) {
    const char c = stop.text[stop.at];
    if (c == '\n' || c == '\r') {
        return {"the string is not closed on its line", "a closing double quote", "write \\n for a line end"};
    }
    stop.start = stop.at;
    if (static_cast<unsigned char>(c) < 0x20) {
        return {"a control character inside a string", "plain text; \\t for a tab", "delete it"};
    }
    return {"a backslash that begins nothing JSON knows", R"(\" \\ \/ \b \f \n \r \t or \u and four digits)",
            R"(write \\ for a backslash)"};
}

Words at_bracket(const Stop& stop) {
    if (stop.before == ',') {
        return {"a comma before a closing bracket", "nothing after the last entry", "delete the comma"};
    }
    if (stop.before == ':') return {"a value is missing", "a value after the colon", ""};
    return {"a closing bracket that closes nothing", "brackets in pairs", "delete it, or open one before it"};
}

Words at_word(const Stop& stop) {
    const std::string word(stop.token.substr(0, 40));
    const std::string small = lower(word);
    constexpr std::array<std::string_view, 7> no_numbers{"nan",      "-nan",      "inf", "-inf",
                                                         "infinity", "-infinity", "+inf"};
    if (std::find(no_numbers.begin(), no_numbers.end(), small) != no_numbers.end()) {
        return {word + " is not a number in JSON", "a finite number",
                "leave the member out where there is no value"};
    }
    if (small == "true" || small == "false" || small == "null") {
        return {"\"" + word + "\" is not spelt as in JSON", small, ""};
    }
    if (word[0] == '\'') return {"single quotes", "names and strings in double quotes", ""};
    if (word[0] == '/' || word[0] == '#') {
        return {"a comment; JSON has none", "only values", "put remarks into a \"note\" member"};
    }
    if (word[0] == '-' || word[0] == '+' || word[0] == '.' || (word[0] >= '0' && word[0] <= '9')) {
        return {"\"" + word + "\" is not a number in JSON", "digits, such as 0.5 or 12", ""};
    }
    return {"\"" + word + "\" stands without double quotes", "names and strings in double quotes", ""};
}

Words words_for(Stop& stop, const ParserMistake& mistake) {
    if (stop.at >= stop.text.size()) return at_the_end(stop);
    if (mistake.too_large) {
        return {"the number " + std::string(stop.token.substr(0, 40)) + " is too large",
                "a number a person would write", ""};
    }
    if (mistake.after_end) {
        return {"text after the end of the document", "nothing more",
                "delete it, or look for a bracket closed too early"};
    }
    const char c = stop.token[0];
    if (c == '"' && (unclosed_string(stop.token) || stop.at + 1 < stop.start + stop.token.size())) {
        return in_string(stop);
    }
    if (c == '}' || c == ']') return at_bracket(stop);
    if (c == ',' || c == ':') {
        return {std::string("a ") + (c == ',' ? "comma" : "colon") + " where none belongs",
                "a value or a name", ""};
    }
    if (ends_value(stop.before) && c != '/' && c != '#') {
        const bool colon = stop.in_object && stop.before == '"';
        return {std::string("a comma") + (colon ? " or a colon" : "") + " is missing before this",
                "a comma between entries" + std::string(colon ? ", a colon after a name" : ""), ""};
    }
    if (c == '"' || c == '{' || c == '[')
        return {"a value where a name belongs", "a name in double quotes", ""};
    return at_word(stop);
}

}  // namespace

Location location_of_offset(std::string_view text, std::size_t offset, const std::string& file_name) {
    const std::size_t begin = byte_order_mark(text);
    const std::string_view before = text.substr(begin, std::max(offset, begin) - begin);
    const std::size_t line_start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
    const auto lines = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
    return {file_name, lines + 1, display_width(before.substr(line_start)) + 1};
}

Finding explain_mistake(std::string_view text, const ParserMistake& mistake, const std::string& file_name) {
    Stop stop = stop_at(text, mistake.position);
    const Words words = words_for(stop, mistake);
    Finding finding;
    finding.id = "json-syntax";
    finding.location = location_of_offset(text, stop.start, file_name);
    finding.message = words.message;
    finding.expected = words.expected;
    finding.next_step = words.next_step;
    return finding;
}

}  // namespace halfsplit
