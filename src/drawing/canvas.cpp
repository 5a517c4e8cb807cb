#include "drawing/canvas.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace halfsplit::drawing {

namespace {

std::string cut_to(const std::string& text, std::size_t characters) {
    if (display_width(text) <= characters) return text;
    std::string cut;
    std::size_t taken = 0;
    for (const char c : text) {
        const bool begins = (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
        if (begins && ++taken > characters - 1) break;
        cut += c;
    }
    return cut + "\u2026";
}

}  // namespace

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char c : printable(text)) {
        if (c == '&')
            safe += "&amp;";
        else if (c == '<')
            safe += "&lt;";
        else if (c == '>')
            safe += "&gt;";
        else if (c == '"')
            safe += "&quot;";
        else
            safe += c;
    }
    return safe;
}

void Canvas::rectangle(double x, double y, double width, double height, std::string_view style) {
    shapes_ += fmt::format("<rect x=\"{:g}\" y=\"{:g}\" width=\"{:g}\" height=\"{:g}\" {}/>\n", x, y, width,
                           height, style);
}

void Canvas::line(double x1, double y1, double x2, double y2, std::string_view style) {
    shapes_ += fmt::format("<path d=\"M{:g} {:g}L{:g} {:g}\" {}/>\n", x1, y1, x2, y2, style);
}

void Canvas::circle(double x, double y, double radius, std::string_view style) {
    shapes_ += fmt::format("<circle cx=\"{:g}\" cy=\"{:g}\" r=\"{:g}\" {}/>\n", x, y, radius, style);
}

void Canvas::path(std::string_view data, std::string_view style) {
    shapes_ += fmt::format("<path d=\"{}\" {}/>\n", data, style);
}

void Canvas::open_group(std::string_view title) {
    shapes_ += fmt::format("<g><title>{}</title>\n", escaped(title));
}

void Canvas::close_group() {
    shapes_ += "</g>\n";
}

void Canvas::text(double x, double y, double width, std::string_view words, const TextStyle& style) {
    const auto fits = static_cast<std::size_t>(std::max(1.0, width / (character_advance * style.size)));
    const std::string shown = cut_to(printable(words), fits);
    if (shown.empty()) return;
    const double length = static_cast<double>(display_width(shown)) * character_advance * style.size;
    texts_ += fmt::format(
        "<text x=\"{:g}\" y=\"{:g}\" font-size=\"{:g}\" fill=\"{}\"{} textLength=\"{:.1f}\" "
        "lengthAdjust=\"spacingAndGlyphs\">{}</text>\n",
        x, y, style.size, style.colour, style.bold ? " font-weight=\"bold\"" : "", length, escaped(shown));
    labels_.push_back({x, y - 0.8 * style.size, length, style.size, shown});
}

std::vector<std::pair<std::string, std::string>> text_colours() {
    std::vector<std::pair<std::string, std::string>> pairs;
    for (const std::string_view behind : {paper, band, cover_band})
        for (const std::string_view front : {ink, suspect_ink, good_ink, found_ink, tip_ink})
            pairs.emplace_back(front, behind);
    for (const std::string_view behind : {ink, suspect_ink, good_ink, found_ink, tip_ink})
        pairs.emplace_back(paper, behind);
    return pairs;
}

}  // namespace halfsplit::drawing
