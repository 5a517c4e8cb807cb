#include "base/json_scan.hpp"

#include <nlohmann/json.hpp>

namespace halfsplit {

JsonScan::JsonScan(std::string_view text) : text_(text), at_(byte_order_mark(text)) {}

JsonToken JsonScan::next() {
    using Kind = JsonToken::Kind;
    while (at_ < text_.size()) {
        const std::size_t start = at_++;
        switch (text_[start]) {
            case ' ':
            case '\t':
            case '\n':
            case '\r':
            case ':':
                break;
            case ',':
                name_next_ = !is_object_.empty() && is_object_.back();
                break;
            case '{':
            case '[': {
                const bool object = text_[start] == '{';
                is_object_.push_back(object);
                name_next_ = object;
                return {object ? Kind::BeginObject : Kind::BeginArray, start, text_.substr(start, 1)};
            }
            case '}':
            case ']':
                if (!is_object_.empty()) is_object_.pop_back();
                name_next_ = false;
                return {text_[start] == '}' ? Kind::EndObject : Kind::EndArray, start,
                        text_.substr(start, 1)};
            case '"':
                return string_at(start);
            default:
                return scalar_at(start);
        }
    }
    return {Kind::End, text_.size(), {}};
}

JsonToken JsonScan::string_at(std::size_t start) {
    while (at_ < text_.size() && text_[at_] != '"') at_ += text_[at_] == '\\' ? 2 : 1;
    at_ = at_ < text_.size() ? at_ + 1 : text_.size();
    const auto kind = name_next_ ? JsonToken::Kind::Name : JsonToken::Kind::Scalar;
    name_next_ = false;
    return {kind, start, text_.substr(start, at_ - start)};
}

JsonToken JsonScan::scalar_at(std::size_t start) {
    at_ = text_.find_first_of(" \t\r\n,:[]{}\"", at_);
    if (at_ == std::string_view::npos) at_ = text_.size();
    return {JsonToken::Kind::Scalar, start, text_.substr(start, at_ - start)};
}

std::size_t byte_order_mark(std::string_view text) {
    return text.substr(0, 3) == "\xEF\xBB\xBF" ? 3 : 0;
}

std::string unquoted(std::string_view token) {
    if (token.size() >= 2 && token.find('\\') == std::string_view::npos) {
        return std::string(token.substr(1, token.size() - 2));
    }
    const nlohmann::json value = nlohmann::json::parse(token, nullptr, false);
    return value.is_string() ? value.get<std::string>() : std::string(token);
}

}  // namespace halfsplit
