#include "draft/layout.hpp"

#include "halfsplit/base/text.hpp"

#include "draft/words.hpp"

#include <algorithm>

namespace halfsplit::draft {

namespace {

constexpr std::size_t widest = 110;

std::string scalar(const Json& value) {
    return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

bool all_plain(const Json& list) {
    return std::none_of(list.begin(), list.end(), [](const Json& entry) { return entry.is_structured(); });
}

std::string on_one_line(const Json& value) {
    if (!value.is_structured()) return scalar(value);
    if (value.empty()) return value.is_array() ? "[]" : "{}";
    std::string text;
    if (value.is_object()) {
        for (const auto& [name, member] : value.items()) {
            text += (text.empty() ? "" : ", ") + scalar(name) + ": " + on_one_line(member);
        }
        return "{ " + text + " }";
    }
    for (const Json& entry : value) text += (text.empty() ? "" : ", ") + on_one_line(entry);
    return all_plain(value) ? "[" + text + "]" : "[ " + text + " ]";
}

// Writes from the column that the text has reached; what goes on below is indented by `indent`.
class Page {
  public:
    void write_document(const Json& document) {
        text_ = "{";
        for (const auto& [name, member] : document.items()) {
            text_ += text_.size() == 1 ? "\n  " : ",\n  ";
            write_member(name, member, 2, 1);
        }
        text_ += "\n}\n";
    }
    std::string text() && { return std::move(text_); }

  private:
    std::size_t column() const {
        const std::size_t line_end = text_.rfind('\n');
        return display_width(line_end == std::string::npos ? text_ : text_.substr(line_end + 1));
    }

    // `after` columns are kept free for what has to follow on the same line: brackets and a comma.
    void write_member(const std::string& name, const Json& value, std::size_t indent, std::size_t after) {
        text_ += scalar(name) + ": ";
        write(value, indent, after);
    }

    void write(const Json& value, std::size_t indent, std::size_t after) {
        const std::string line = on_one_line(value);
        if (!value.is_structured() || column() + display_width(line) + after <= widest) {
            text_ += line;
        } else if (value.is_object()) {
            write_members(value, indent, after);
        } else if (all_plain(value)) {
            write_plain_list(value, indent + 2, after);
        } else {
            write_list(value, indent);
        }
    }

    // Side by side, as many as fit.
    void write_members(const Json& object, std::size_t indent, std::size_t after) {
        text_ += "{ ";
        std::size_t left = object.size();
        for (const auto& [name, member] : object.items()) {
            const std::size_t closing = --left == 0 ? after + 2 : 1;
            const bool first = left + 1 == object.size();
            const std::size_t width = display_width(scalar(name) + ": " + on_one_line(member));
            if (!first) {
                const bool fits = column() + 2 + width + closing <= widest;
                text_ += fits ? ", " : ",\n" + std::string(indent + 2, ' ');
            }
            write_member(name, member, indent + 2, closing);
        }
        text_ += " }";
    }

    void write_plain_list(const Json& list, std::size_t indent, std::size_t after) {
        text_ += "[";
        std::size_t left = list.size();
        for (const Json& entry : list) {
            const std::string word = scalar(entry);
            const std::size_t closing = --left == 0 ? after + 1 : 1;
            if (left + 1 != list.size()) {
                const bool fits = column() + 2 + display_width(word) + closing <= widest;
                text_ += fits ? ", " : ",\n" + std::string(indent, ' ');
            }
            text_ += word;
        }
        text_ += "]";
    }

    void write_list(const Json& list, std::size_t indent) {
        text_ += "[";
        std::size_t left = list.size();
        for (const Json& entry : list) {
            text_ += left == list.size() ? "\n" : ",\n";
            text_ += std::string(indent + 2, ' ');
            --left;
            write(entry, indent + 2, 1);
        }
        text_ += "\n" + std::string(indent, ' ') + "]";
    }

    std::string text_;
};

}  // namespace

std::string laid_out(const Json& harness) {
    if (!harness.is_object() || harness.empty()) return on_one_line(harness) + "\n";
    Page page;
    page.write_document(harness);
    return std::move(page).text();
}

}  // namespace halfsplit::draft
