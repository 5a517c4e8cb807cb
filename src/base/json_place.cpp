// Where in a JSON text things stand.
#include "halfsplit/base/json_text.hpp"
#include "halfsplit/base/text.hpp"

#include "base/json_scan.hpp"
#include "base/places.hpp"

#include <algorithm>
#include <map>
#include <memory>
#include <numeric>

namespace halfsplit {

namespace {

constexpr std::size_t widest_quote = 120;  // columns of a quoted line
constexpr std::size_t before_caret = 90;   // of them at most before the caret, where a line has to be cut

// The wanted pointers as a tree of names, so that a walk compares one name at a time.
struct Wanted {
    std::map<std::string, std::unique_ptr<Wanted>, std::less<>> below;
    std::vector<std::size_t> spots;  // those whose pointer ends here
};

// RFC 6901, section 4.
std::string unescaped(std::string_view token) {
    std::string name;
    for (std::size_t i = 0; i < token.size(); ++i) {
        if (token[i] == '~' && i + 1 < token.size()) {
            name += token[++i] == '1' ? '/' : '~';
        } else {
            name += token[i];
        }
    }
    return name;
}

void plant(Wanted& root, std::string_view pointer, std::size_t spot) {
    Wanted* node = &root;
    while (!pointer.empty()) {
        pointer.remove_prefix(1);
        const std::size_t end = std::min(pointer.find('/'), pointer.size());
        auto& next = node->below[unescaped(pointer.substr(0, end))];
        if (!next) next = std::make_unique<Wanted>();
        node = next.get();
        pointer.remove_prefix(end);
    }
    node->spots.push_back(spot);
}

bool continues_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

struct Found {
    std::size_t name = 0, value = 0;  // offsets
};

class Locator {
  public:
    Locator(std::string_view text, const std::vector<Spot>& spots) : scan_(text), spots_(spots) {
        for (std::size_t i = 0; i < spots.size(); ++i) plant(root_, spots[i].pointer, i);
        offsets_.resize(spots.size(), byte_order_mark(text));
    }

    std::vector<std::size_t> offsets() {
        using Kind = JsonToken::Kind;
        for (JsonToken token = scan_.next(); token.kind != Kind::End; token = scan_.next()) {
            if (token.kind == Kind::Name) {
                name_ = token;
            } else if (token.kind == Kind::EndObject || token.kind == Kind::EndArray) {
                if (!open_.empty()) open_.pop_back();
            } else {
                const Wanted* node = meet(token);
                const bool opens = token.kind != Kind::Scalar;
                if (opens) open_.push_back({node, token.kind == Kind::BeginArray, 0});
            }
        }
        return std::move(offsets_);
    }

  private:
    struct Open {
        const Wanted* node = nullptr;  // null where nothing below is wanted
        bool array = false;
        std::size_t index = 0;
    };

    // The node of the value that begins at `token`; everything wanted at or below it gets this place for now.
    const Wanted* meet(const JsonToken& token) {
        const Wanted* node = &root_;
        std::size_t name_offset = token.offset;
        if (!open_.empty()) {
            Open& parent = open_.back();
            if (!parent.array) name_offset = name_.offset;
            node = parent.node == nullptr ? nullptr : child(parent);
            if (parent.array) ++parent.index;
        }
        if (node != nullptr) settle(*node, {name_offset, token.offset}, true);
        return node;
    }

    const Wanted* child(const Open& parent) const {
        const auto next =
            parent.node->below.find(parent.array ? std::to_string(parent.index) : unquoted(name_.text));
        return next == parent.node->below.end() ? nullptr : next->second.get();
    }

    // Depth of the tree is that of the pointers asked for, which come from this program.
    void settle(const Wanted& node, const Found& found, bool here) {
        for (const std::size_t spot : node.spots) {
            offsets_[spot] = here && spots_[spot].name ? found.name : found.value;
        }
        for (const auto& below : node.below) settle(*below.second, found, false);
    }

    JsonScan scan_;
    const std::vector<Spot>& spots_;
    Wanted root_;
    JsonToken name_;
    std::vector<Open> open_;
    std::vector<std::size_t> offsets_;
};

// A line of the text, by offsets.
struct Line {
    std::size_t start = 0, end = 0;
    std::size_t indented = 0;  // where its indentation ends
    bool fits = true;          // the rest of it can be shown whole
};

// The offset `count` characters on, at most at the end of the line.
std::size_t forward(std::string_view text, const Line& line, std::size_t at, std::size_t count) {
    for (; count > 0 && at < line.end; --count) {
        ++at;
        while (at < line.end && continues_character(text[at])) ++at;
    }
    return at;
}

// The offset `count` characters back, at most at the end of the indentation.
std::size_t backward(std::string_view text, const Line& line, std::size_t at, std::size_t count) {
    for (; count > 0 && at > line.indented; --count) {
        --at;
        while (at > line.indented && continues_character(text[at])) --at;
    }
    return at;
}

Line line_at(std::string_view text, std::size_t start) {
    Line line;
    line.start = start;
    line.end = std::min(text.find('\n', start), text.size());
    if (line.end > start && text[line.end - 1] == '\r') --line.end;
    line.indented = std::min(text.find_first_not_of(" \t", start), line.end);
    line.fits = forward(text, line, line.indented, widest_quote) == line.end;
    return line;
}

// The line without its indentation; where it is too long, the piece around `at`, with dots where it was cut.
void quote(Finding& finding, std::string_view text, const Line& line, std::size_t at) {
    std::size_t start = std::min(line.indented, at);
    if (!line.fits && at > line.indented) start = backward(text, line, at, before_caret);
    const std::size_t end = forward(text, line, start, widest_quote);
    const std::string dots = start > line.indented ? "..." : "";
    finding.source_line = dots + std::string(text.substr(start, end - start)) + (end < line.end ? "..." : "");
    finding.caret = dots.size() + display_width(text.substr(start, at - start)) + 1;
}

}  // namespace

std::vector<Location> locations(std::string_view text, const std::vector<std::size_t>& offsets,
                                const std::string& file_name) {
    std::vector<std::size_t> order(offsets.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return offsets[a] < offsets[b]; });
    std::vector<Location> result(offsets.size());
    std::size_t at = byte_order_mark(text);
    std::size_t line = 1;
    std::size_t column = 1;
    for (const std::size_t which : order) {
        for (; at < std::min(offsets[which], text.size()); ++at) {
            if (text[at] == '\n') {
                ++line;
                column = 1;
            } else if (!continues_character(text[at])) {
                ++column;
            }
        }
        result[which] = {file_name, line, column};
    }
    return result;
}

std::vector<Location> locate(std::string_view text, const std::vector<Spot>& spots,
                             const std::string& file_name) {
    return locations(text, Locator(text, spots).offsets(), file_name);
}

Location locate(std::string_view text, std::string_view pointer, const std::string& file_name) {
    return locate(text, std::vector<Spot>{{std::string(pointer), false}}, file_name).front();
}

std::string line_of(std::string_view text, std::size_t line) {
    std::size_t start = byte_order_mark(text);
    for (std::size_t number = 1; number < line; ++number) {
        const std::size_t end = text.find('\n', start);
        if (end == std::string_view::npos) return {};
        start = end + 1;
    }
    const Line whole = line_at(text, start);
    return std::string(text.substr(start, forward(text, whole, start, widest_quote) - start));
}

void quote_lines(std::vector<Finding>& findings, std::string_view text) {
    std::vector<Finding*> order;
    for (Finding& finding : findings) {
        if (finding.location.line > 0) order.push_back(&finding);
    }
    const auto place = [](const Finding* finding) {
        return std::pair(finding->location.line, finding->location.column);
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](const Finding* a, const Finding* b) { return place(a) < place(b); });
    std::size_t number = 1;
    Line line = line_at(text, byte_order_mark(text));
    std::size_t at = line.start;
    std::size_t column = 1;
    for (Finding* finding : order) {
        while (number < finding->location.line) {
            line = line_at(text, std::min(text.find('\n', line.end), text.size() - 1) + 1);
            at = line.start;
            column = 1;
            ++number;
        }
        const std::size_t on = std::max(finding->location.column, column) - column;
        at = forward(text, line, at, on);
        column += on;
        quote(*finding, text, line, at);
    }
}

std::string pointer_token(std::string_view name) {
    std::string token;
    for (const char c : name) {
        if (c == '~') {
            token += "~0";
        } else if (c == '/') {
            token += "~1";
        } else {
            token += c;
        }
    }
    return token;
}

}  // namespace halfsplit
