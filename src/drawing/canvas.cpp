#include "drawing/canvas.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "drawing/bus_measures.hpp"

#include <algorithm>
#include <sstream>

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

std::string Canvas::shortened(const std::string& words, std::size_t characters, std::string_view whole) {
    if (cuts_ == Cuts::Plain || display_width(words) <= characters) return cut_to(words, characters);
    const std::string name = whole.empty() ? words : printable(whole);
    const auto known = std::find(names_in_full_.begin(), names_in_full_.end(), name);
    const auto number = static_cast<std::size_t>(known - names_in_full_.begin()) + 1;
    if (known == names_in_full_.end()) names_in_full_.push_back(name);
    const std::string mark = fmt::format("[{}]", number);
    return mark.size() < characters ? cut_to(words, characters - mark.size()) + mark : mark;
}

void Canvas::text(double x, double y, double width, std::string_view words, const TextStyle& style,
                  std::string_view whole) {
    const auto fits = static_cast<std::size_t>(std::max(1.0, width / (character_advance * style.size)));
    const std::string shown = shortened(printable(words), fits, whole);
    if (shown.empty()) return;
    const double length = static_cast<double>(display_width(shown)) * character_advance * style.size;
    texts_ += fmt::format(
        "<text x=\"{:g}\" y=\"{:g}\" font-size=\"{:g}\" fill=\"{}\"{} textLength=\"{:.1f}\" "
        "lengthAdjust=\"spacingAndGlyphs\">{}</text>\n",
        x, y, style.size, style.colour, style.bold ? " font-weight=\"bold\"" : "", length, escaped(shown));
    labels_.push_back({x, y - 0.8 * style.size, length, style.size, shown});
}

namespace {

std::vector<std::string> lines_within(double width, const std::string& words, const TextStyle& style) {
    if (words.empty()) return {};
    const auto characters = static_cast<std::size_t>(std::max(1.0, width / (character_advance * style.size)));
    std::istringstream wrapped(wrap(printable(words), characters, 0));
    std::vector<std::string> lines;
    for (std::string line; std::getline(wrapped, line);) lines.push_back(line);
    return lines;
}

}  // namespace

std::size_t lines_taken(double width, const std::string& words, const TextStyle& style, std::size_t most) {
    return std::min(lines_within(width, words, style).size(), most);
}

void write_lines(Canvas& canvas, double x, double y, double width, const std::string& words,
                 const TextStyle& style, std::size_t most) {
    std::vector<std::string> lines = lines_within(width, words, style);
    for (std::size_t i = most; i < lines.size(); ++i) lines[most - 1] += " " + lines[i];
    for (std::size_t i = 0; i < std::min(lines.size(), most); ++i)
        canvas.text(x, y + line_height * static_cast<double>(i), width, lines[i], style, words);
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
