#include "report/html.hpp"

#include "halfsplit/base/text.hpp"

namespace halfsplit::report {

namespace {

std::string_view entity_of(char c) {
    switch (c) {
        case '&':
            return "&amp;";
        case '<':
            return "&lt;";
        case '>':
            return "&gt;";
        case '"':
            return "&quot;";
        case '\'':
            return "&#39;";
        default:
            return {};
    }
}

}  // namespace

std::string escaped(std::string_view text) {
    std::string result;
    result.reserve(text.size());
    for (const char c : text) {
        const std::string_view entity = entity_of(c);
        if (entity.empty()) {
            result += c;
        } else {
            result += entity;
        }
    }
    return result;
}

std::string shown(std::string_view text) {
    return escaped(printable(text));
}

std::string element(std::string_view tag, std::string_view text, std::string_view attributes) {
    std::string result = "<";
    result.append(tag);
    if (!attributes.empty()) result.append(" ").append(attributes);
    return result.append(">").append(shown(text)).append("</").append(tag).append(">");
}

std::string html_document(std::string_view title, std::string_view style, std::string_view body) {
    // The policy holds even where some text came through unescaped: no script, no picture, no request.
    std::string html =
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" "
        "content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
    html += element("title", title) + "\n<style>\n";
    html += style;
    html += "</style>\n</head>\n<body>\n";
    html += body;
    return html + "</body>\n</html>\n";
}

}  // namespace halfsplit::report
