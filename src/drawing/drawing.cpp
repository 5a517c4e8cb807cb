#include "halfsplit/drawing/drawing.hpp"

#include <fmt/format.h>

#include "drawing/bus_measures.hpp"
#include "drawing/bus_scene.hpp"
#include "drawing/canvas.hpp"
#include "drawing/grid.hpp"
#include "drawing/map_text.hpp"
#include "drawing/small_scene.hpp"
#include "drawing/wire_colours.hpp"

namespace halfsplit::drawing {

using harness::Harness;
using harness::Index;

namespace {

constexpr std::size_t full_columns = 7;
constexpr double legend_line = 14, legend_margin = 12;

// Lines from `top` on, broken as the width asks; what height they take.
double write_all(const std::vector<std::string>& all, double top, double width, Canvas& canvas) {
    const TextStyle style{.size = 10};
    double y = top;
    for (const std::string& words : all) {
        constexpr auto unlimited = static_cast<std::size_t>(-1);
        const double room = width - 2 * legend_margin;
        write_lines(canvas, legend_margin, y + legend_margin, room, words, style, unlimited);
        y += 3 + line_height * static_cast<double>(lines_taken(room, words, style, unlimited));
    }
    return all.empty() ? 0 : y + 2 * legend_margin - top;
}

std::string colour_words(const Harness& harness, Index network) {
    std::set<std::string> used;
    for (const harness::Part& part : harness.parts) {
        if (part.network != network) continue;
        for (const auto& strand : part.strand)
            if (strand) used.insert({strand->colour.base, strand->colour.stripe});
    }
    std::string words;
    for (const Paint& paint : paints)
        if (!paint.code.empty() && used.contains(std::string(paint.code)))
            words += fmt::format("{}{} {}", words.empty() ? "" : ", ", paint.code, paint.word);
    return words;
}

// What the signs mean, and the colour codes that are used, in words.
std::vector<std::string> legend(const Harness& harness, Index network) {
    std::vector<std::string> lines{
        "? suspect, with its chance; = read good; FOUND the fault; \u25b2 probe; \u25b3 clip; H above, L "
        "below"};
    const std::string colours = colour_words(harness, network);
    if (!colours.empty()) lines.push_back("Colours, base then stripe: " + colours);
    return lines;
}

// What had to be cut in the picture, by its number.
std::vector<std::string> in_full(const Canvas& canvas) {
    std::vector<std::string> lines;
    for (const std::string& name : canvas.names_in_full())
        lines.push_back(fmt::format("[{}] {}", lines.size() + 1, name));
    if (!lines.empty()) lines.insert(lines.begin(), "In full:");
    return lines;
}

std::string in_words(const Harness& harness, Index network, const Marks& marks) {
    std::string words = fmt::format("{}, {} parts.",
                                    harness.networks[network].name.empty() ? harness.networks[network].id
                                                                           : harness.networks[network].name,
                                    harness.parts.size());
    for (const auto& [part, chance] : marks.suspects)
        words += fmt::format(" {} is suspect, {:.0f} %.", part, 100 * chance);
    for (const std::string& part : marks.found) words += fmt::format(" {} was found faulty.", part);
    if (!marks.clip.empty()) words += fmt::format(" Clip at {}.", marks.clip);
    if (!marks.probe.empty()) words += fmt::format(" Probe at {}.", marks.probe);
    return words;
}

}  // namespace

struct Drawing::Plan {
    const Harness& harness;
    Index network;
    std::string prefix;
    Grid full, small;

    Size draw(const Marks& marks, Canvas& canvas) const {
        Size size = draw_bus(harness, network, full, marks, canvas);
        size.height += write_all(legend(harness, network), size.height, size.width, canvas);
        size.height += draw_faces(harness, network, marks, size.height, size.width, canvas);
        size.height += write_all(in_full(canvas), size.height, size.width, canvas);
        return size;
    }
};

Drawing::Drawing(const Harness& harness, Index network, std::string prefix)
    : plan_(std::make_unique<Plan>(Plan{harness, network, std::move(prefix),
                                        lay_out(harness, network, full_columns),
                                        lay_out(harness, network, small_columns)})) {}
Drawing::~Drawing() = default;
Drawing::Drawing(Drawing&&) noexcept = default;

std::string Drawing::svg(const Marks& marks) const {
    Canvas canvas(Canvas::Cuts::Numbered);
    const Size size = plan_->draw(marks, canvas);
    const std::string& title = plan_->harness.title;
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-labelledby=\"{0}-title {0}-words\" "
        "viewBox=\"0 0 {1:g} "
        "{2:g}\" width=\"{1:g}\" height=\"{2:g}\" font-family=\"sans-serif\">\n<title "
        "id=\"{0}-title\">{3}</title>\n<desc "
        "id=\"{0}-words\">{4}</desc>\n<rect width=\"{1:g}\" height=\"{2:g}\" fill=\"{5}\"/>\n{6}{7}</svg>\n",
        plan_->prefix, size.width, size.height, escaped(title),
        escaped(in_words(plan_->harness, plan_->network, marks)), paper, canvas.shapes(), canvas.texts());
}

std::vector<LabelBox> Drawing::labels(const Marks& marks) const {
    Canvas canvas(Canvas::Cuts::Numbered);
    plan_->draw(marks, canvas);
    return canvas.labels();
}

std::string Drawing::symbol(const std::string& id) const {
    Canvas canvas;
    draw_small(plan_->harness, plan_->small, canvas);
    const SmallSize size = small_size(plan_->small);
    return fmt::format("<symbol id=\"{}\" viewBox=\"0 0 {:g} {:g}\">\n{}</symbol>\n", escaped(id), size.width,
                       size.height, canvas.shapes());
}

std::string Drawing::step(const std::string& symbol_id, const Marks& marks) const {
    Canvas canvas;
    draw_small_marks(plan_->harness, plan_->small, marks, canvas);
    const SmallSize size = small_size(plan_->small);
    return fmt::format(
        "<svg role=\"img\" viewBox=\"0 0 {0:g} {1:g}\"><title>{2}</title><use "
        "href=\"#{3}\" "
        "width=\"{0:g}\" height=\"{1:g}\"/>\n{4}<g paint-order=\"stroke\" stroke=\"{6}\" "
        "stroke-width=\"3\">\n"
        "{5}</g>\n</svg>\n",
        size.width, size.height, escaped(in_words(plan_->harness, plan_->network, marks)), escaped(symbol_id),
        canvas.shapes(), canvas.texts(), paper);
}

std::string Drawing::text(const Marks& marks, std::size_t columns) const {
    return map_text(plan_->harness, plan_->network, plan_->full, marks, columns);
}

}  // namespace halfsplit::drawing
