#include "benchmarks/log_plot.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

namespace halfsplit::test {

namespace {

// In units of the picture, which are pixels where it is shown as large as it is.
constexpr double key_left = 20, left = 70, width = 560, right = 20, top = 70, panel_height = 200,
                 panel_gap = 50, bottom = 60;

struct Scale {
    double low = 0, high = 0;    // of the figures
    double start = 0, span = 0;  // of the picture; a negative span goes up
    double at(double figure) const { return start + span * std::log(figure / low) / std::log(high / low); }
};

template <typename Do>
void for_each_dot(const Panel& panel, Do act) {
    for (const Series& one : panel.series)
        for (const Series::Dot& dot : one.dots) act(dot);
}

std::set<double> sizes_of(const Plot& plot) {
    std::set<double> sizes;
    for (const Panel& panel : plot.panels)
        for_each_dot(panel, [&](const Series::Dot& dot) {
            if (!(dot.size > 0 && dot.figure > 0))
                throw std::invalid_argument("a logarithmic scale has no place for 0 and below: " +
                                            panel.title);
            sizes.insert(dot.size);
        });
    if (sizes.empty()) throw std::invalid_argument("nothing to show: " + plot.title);
    return sizes;
}

// Whole powers of ten around all figures.
Scale figures_of(const Panel& panel, double panel_top) {
    double low = 1e300, high = 0;
    for_each_dot(panel, [&](const Series::Dot& dot) {
        low = std::min(low, dot.figure);
        high = std::max(high, dot.figure);
    });
    low = std::pow(10, std::floor(std::log10(low)));
    high = std::max(low * 10, std::pow(10, std::ceil(std::log10(high))));
    return {low, high, panel_top + panel_height, -panel_height};
}

std::string text(double x, double y, const std::string& anchor, const std::string& words) {
    return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\">{}</text>\n", x, y, anchor, words);
}

std::string line(double x1, double y1, double x2, double y2, const std::string& stroke) {
    return fmt::format("<path d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}\" stroke=\"{}\"/>\n", x1, y1, x2, y2, stroke);
}

std::string mark(Marker marker, double x, double y) {
    switch (marker) {
        case Marker::Disc:
        case Marker::Circle:
            return fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4\" fill=\"{}\" stroke=\"black\"/>\n",
                               x, y, marker == Marker::Disc ? "black" : "white");
        case Marker::Square:
        case Marker::OpenSquare:
            return fmt::format(
                "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"8\" height=\"8\" fill=\"{}\" stroke=\"black\"/>\n",
                x - 4, y - 4, marker == Marker::Square ? "black" : "white");
        case Marker::Cross:
            return line(x - 5, y - 5, x + 5, y + 5, "black") + line(x - 5, y + 5, x + 5, y - 5, "black");
    }
    return "";
}

std::string dashes(Marker marker) {
    return marker == Marker::Circle || marker == Marker::OpenSquare ? " stroke-dasharray=\"5 4\"" : "";
}

std::string drawn(const Series& series, const Scale& across, const Scale& up) {
    std::string path, marks;
    for (const Series::Dot& dot : series.dots) {
        const double x = across.at(dot.size), y = up.at(dot.figure);
        path += fmt::format("{}{:.1f} {:.1f}", path.empty() ? "M" : "L", x, y);
        marks += mark(series.marker, x, y);
    }
    if (!series.joined) return marks;
    return fmt::format("<path d=\"{}\" fill=\"none\" stroke=\"black\"{}/>\n", path, dashes(series.marker)) +
           marks;
}

std::string power_of_ten(double figure) {
    const int exponent = static_cast<int>(std::lround(std::log10(figure)));
    if (exponent >= -2 && exponent <= 3) return fmt::format("{:g}", std::pow(10, exponent));
    return fmt::format("10<tspan dy=\"-5\" font-size=\"9\">{}</tspan>", exponent);
}

std::string frame(const Panel& panel, double panel_top, const std::set<double>& sizes, const Scale& across,
                  const Scale& up) {
    std::string result = text(left, panel_top - 10, "start", panel.title);
    for (double figure = up.low; figure < up.high * 1.5; figure *= 10) {
        const double y = up.at(figure);
        result += line(left, y, left + width, y, "#bbb");
        result += text(left - 8, y + 4, "end", power_of_ten(figure));
    }
    for (const double size : sizes) {
        const double x = across.at(size);
        result += line(x, panel_top, x, panel_top + panel_height, "#ddd");
        result += text(x, panel_top + panel_height + 16, "middle", fmt::format("{:g}", size));
    }
    return result + fmt::format(
                        "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"none\" "
                        "stroke=\"black\"/>\n",
                        left, panel_top, width, panel_height);
}

// Every name once, whichever panels it is in.
std::string key(const Plot& plot) {
    std::string result;
    std::set<std::string> told;
    double x = key_left;
    for (const Panel& panel : plot.panels)
        for (const Series& one : panel.series) {
            if (!told.insert(one.name).second) continue;
            if (one.joined)
                result +=
                    fmt::format("<path d=\"M{:.1f} 38h26\" stroke=\"black\"{}/>\n", x, dashes(one.marker));
            result += mark(one.marker, x + 13, 38) + text(x + 32, 42, "start", one.name);
            x += 44 + 6.2 * static_cast<double>(one.name.size());
        }
    return result;
}

}  // namespace

std::string svg(const Plot& plot) {
    const std::set<double> sizes = sizes_of(plot);
    const double low = *sizes.begin() / 1.06, high = *sizes.rbegin() * 1.06;
    const Scale across{low, high, left, width};
    const double height =
        top + static_cast<double>(plot.panels.size()) * (panel_height + panel_gap) - panel_gap + bottom;
    std::string result = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" width=\"{0:.0f}\" "
        "height=\"{1:.0f}\" role=\"img\" font-family=\"sans-serif\" font-size=\"12\">\n<title>{2}</title>\n"
        "<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n",
        left + width + right, height, plot.title);
    result += text(left, 20, "start", plot.title) + key(plot);
    double panel_top = top;
    for (const Panel& panel : plot.panels) {
        const Scale up = figures_of(panel, panel_top);
        result += frame(panel, panel_top, sizes, across, up);
        for (const Series& one : panel.series) result += drawn(one, across, up);
        panel_top += panel_height + panel_gap;
    }
    return result + text(left + width / 2, height - 15, "middle", plot.size_label) + "</svg>\n";
}

}  // namespace halfsplit::test
