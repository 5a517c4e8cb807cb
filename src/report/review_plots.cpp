#include "report/review_plots.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>

#include "report/html.hpp"
#include "report/review_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace halfsplit::report {

using advice::Review;
using advice::Spent;
using advice::Work;

namespace {

// Shorter stretches would not be seen; they are drawn that wide.
constexpr double least_percent = 0.4;
constexpr std::size_t most_in_words = 12;

double percent(double part, double whole) {
    return whole > 0 ? 100 * part / whole : 0;
}

void add_stretch(std::vector<Stretch>& all, Work work, double minutes) {
    const double from = all.empty() ? 0 : all.back().to;
    if (!all.empty() && all.back().work == work) {
        all.back().to += minutes;
    } else {
        all.push_back({work, from, from + minutes});
    }
}

std::string stretches_in_words(const std::vector<Stretch>& own) {
    std::vector<std::string> words;
    for (const Stretch& stretch : own) {
        if (words.size() == most_in_words) break;
        words.push_back(fmt::format("{:.0f} to {:.0f}", stretch.from, stretch.to));
    }
    std::string text = "minutes " + join(words, ", ");
    if (own.size() > words.size()) text += fmt::format(" and {} more", own.size() - words.size());
    return text;
}

// The longest of these of which six at most fit.
double tick_minutes(double total) {
    constexpr std::array<double, 12> steps{1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 1440, 2880};
    const auto fits =
        std::find_if(steps.begin(), steps.end(), [total](double step) { return total / step <= 5; });
    return fits == steps.end() ? total / 5 : *fits;
}

double value_of(const PlottedOutlook& moment, Measure measure) {
    return measure == Measure::Bits ? moment.outlook->bits : static_cast<double>(moment.outlook->suspects);
}

std::string figure_of(const PlottedOutlook& moment, Measure measure) {
    return fmt::format("{:.{}f}", value_of(moment, measure), measure == Measure::Bits ? 1 : 0);
}

std::string moment_words(const PlottedOutlook& moment) {
    return moment.sequence == 0 ? "at the start" : "after " + record_words(moment.sequence);
}

std::string plot_words(const std::vector<PlottedOutlook>& moments, Measure measure) {
    std::vector<std::string> words;
    const std::size_t stride = (moments.size() + most_in_words - 1) / most_in_words;
    for (std::size_t i = 0; i < moments.size(); i += stride)
        words.push_back(figure_of(moments[i], measure) + " " + moment_words(moments[i]));
    if ((moments.size() - 1) % stride != 0)
        words.push_back(figure_of(moments.back(), measure) + " " + moment_words(moments.back()));
    return (measure == Measure::Bits ? "Doubt in bits: " : "Parts suspected: ") + join(words, ", ");
}

std::vector<PlottedOutlook> thinned(const std::vector<PlottedOutlook>& moments) {
    const std::size_t stride = (moments.size() + most_bars - 1) / most_bars;
    if (stride <= 1) return moments;
    std::vector<PlottedOutlook> kept;
    for (std::size_t i = 0; i < moments.size(); i += stride) kept.push_back(moments[i]);
    if ((moments.size() - 1) % stride != 0) kept.push_back(moments.back());
    return kept;
}

}  // namespace

std::vector<Stretch> stretches(const Review& review) {
    std::vector<Stretch> all;
    double billed = 0;
    for (const advice::ReviewStep& step : review.steps) {
        for (const Spent& spent : step.work) {
            add_stretch(all, spent.work, spent.minutes);
            billed += spent.minutes;
        }
    }
    if (review.minutes.spent - billed > 0.01) add_stretch(all, Work::Other, review.minutes.spent - billed);
    return all;
}

std::string work_row(const std::vector<Stretch>& all, Work work, double total) {
    std::vector<Stretch> own;
    std::copy_if(all.begin(), all.end(), std::back_inserter(own),
                 [work](const Stretch& stretch) { return stretch.work == work; });
    std::string svg = "<svg class=\"bar\" role=\"img\" width=\"100%\" height=\"16\">" +
                      element("title", std::string(word(work)) + ": " + stretches_in_words(own));
    svg += "<rect class=\"rail\" x=\"0\" y=\"7\" width=\"100%\" height=\"2\"/>";
    for (const Stretch& stretch : own) {
        const double width = std::max(least_percent, percent(stretch.to - stretch.from, total));
        svg += fmt::format("<rect x=\"{:.2f}%\" y=\"1\" width=\"{:.2f}%\" height=\"14\"/>",
                           std::min(percent(stretch.from, total), 100 - least_percent), width);
    }
    return svg + "</svg>";
}

std::string minutes_axis(double total) {
    std::string svg = "<svg class=\"axis\" role=\"img\" width=\"100%\" height=\"22\">" +
                      element("title", "scale: from 0 to " + format_minutes(total)) +
                      "<rect class=\"rail\" x=\"0\" y=\"0\" width=\"100%\" height=\"1\"/>";
    const double step = tick_minutes(total);
    for (double at = 0; at <= total; at += step) {
        const double x = percent(at, total);
        const char* anchor = at == 0 ? "start" : x > 92 ? "end" : "middle";
        svg += fmt::format(
            "<rect x=\"{:.2f}%\" y=\"0\" width=\"1\" height=\"5\"/>"
            "<text x=\"{:.2f}%\" y=\"17\" text-anchor=\"{}\">{:.0f}</text>",
            std::min(x, 99.7), x, anchor, at);
        if (step <= 0) break;
    }
    return svg + "</svg>";
}

std::vector<PlottedOutlook> outlooks(const Review& review) {
    std::vector<PlottedOutlook> moments{{0, &review.start}};
    for (const advice::ReviewStep& step : review.steps) {
        if (step.outlook) moments.push_back({step.sequence, &*step.outlook});
    }
    return moments;
}

std::string outlook_plot(const std::vector<PlottedOutlook>& all, Measure measure) {
    constexpr double height = 90, foot = 18, head = 16;
    constexpr std::size_t most_labels = 14;
    const std::vector<PlottedOutlook> moments = thinned(all);
    double most = 0;
    for (const PlottedOutlook& moment : moments) most = std::max(most, value_of(moment, measure));
    const std::size_t stride = (moments.size() + most_labels - 1) / most_labels;
    const double slot = 100.0 / static_cast<double>(moments.size());
    std::string svg = fmt::format("<svg class=\"plot\" role=\"img\" width=\"100%\" height=\"{:.0f}\">",
                                  head + height + foot) +
                      element("title", plot_words(moments, measure));
    for (std::size_t i = 0; i < moments.size(); ++i) {
        const double value = value_of(moments[i], measure);
        const double tall = most > 0 ? height * value / most : 0;
        const double x = slot * static_cast<double>(i);
        svg += fmt::format("<rect x=\"{:.2f}%\" y=\"{:.1f}\" width=\"{:.2f}%\" height=\"{:.1f}\"/>",
                           x + slot * 0.1, head + height - tall, slot * 0.8, tall);
        if (i % stride != 0) continue;
        // The first would stick out to the left.
        const std::string at =
            i == 0 ? "x=\"0\" class=\"first\"" : fmt::format("x=\"{:.2f}%\"", x + slot / 2);
        svg += fmt::format("<text {} y=\"{:.1f}\">{}</text><text {} y=\"{:.1f}\">{}</text>", at,
                           head + height - tall - 4, figure_of(moments[i], measure), at, head + height + 14,
                           moments[i].sequence == 0 ? "start" : std::to_string(moments[i].sequence));
    }
    svg +=
        fmt::format("<rect class=\"rail\" x=\"0\" y=\"{:.1f}\" width=\"100%\" height=\"1\"/>", head + height);
    return svg + "</svg>";
}

}  // namespace halfsplit::report
