#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/report/expectation_report.hpp"

#include <fmt/format.h>

#include "report/page.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::report {

using advice::ExpectedOutcome;
using advice::FigureRange;
using advice::Spot;
using electrics::Power;

namespace {

constexpr std::size_t tips_label = 7;
constexpr std::size_t most_parts = 8;
constexpr std::size_t most_faults = 4;
constexpr std::size_t fewest_named = 2;
constexpr double hardly_any = 0.001;
constexpr std::size_t outcome_indent = 4;

std::string figure_words(double figure, Power power) {
    if (std::isnan(figure)) return "not there";
    if (power == Power::Off) return format_ohm(figure);
    return std::isinf(figure) ? "floats: anything" : format_volt(figure);
}

std::string range_words(const FigureRange& range, Power power) {
    const std::string low = figure_words(range.low, power);
    const std::string high = figure_words(range.high, power);
    return low == high ? low : low + " to " + high;
}

std::string spot_words(const Spot& spot) {
    if (spot.part.empty())
        return spot.part_name.empty() ? spot.name : fmt::format("{} ({})", spot.name, spot.part_name);
    std::string text = spot.name + (spot.line.empty() ? "" : ", line " + spot.line);
    text += fmt::format(": {}", spot.kind);
    if (!spot.part_name.empty()) text += fmt::format(" \"{}\"", spot.part_name);
    if (!spot.half_name.empty()) text += ", " + spot.half_name;
    if (!spot.colour.empty()) text += ", " + spot.colour;
    return text;
}

// "X1 12 %, W3 8 % and 9 more parts": few, and only what has a chance worth the name.
template <typename Items, typename Name>
std::string likeliest_words(const Items& items, std::size_t most, std::string_view what, Name name) {
    std::vector<std::string> words;
    for (const auto& item : items) {
        if (words.size() == most || (words.size() >= fewest_named && item.probability < hardly_any)) break;
        words.push_back(fmt::format("{} {}", name(item), format_chance(item.probability)));
    }
    std::string text = join(words, ", ");
    if (items.size() > words.size())
        text += fmt::format(" and {}", counted(items.size() - words.size(), fmt::format("more {}", what)));
    return text;
}

std::string_view power_words(Power power) {
    return power == Power::Awake ? "battery on, bus awake, no module talking" : "battery on, bus asleep";
}

void add_tips(const Spot& red, const Spot& black, const std::vector<std::string>& apart, Power power,
              Page& page) {
    if (power != Power::Off) page.labelled("volts", std::string(power_words(power)), 0, tips_label);
    page.labelled("red", spot_words(red), 0, tips_label);
    page.labelled("black", spot_words(black), 0, tips_label);
    page.labelled("apart", apart.empty() ? "nothing" : join_words(apart), 0, tips_label);
}

void add_safety(const std::vector<std::string>& cautions, Power power, Page& page) {
    page.labelled(
        "safe",
        power == Power::Off
            ? "Ohms on a dead bus only: ignition off, bus asleep, battery off, the maker's waiting "
              "time over."
            : "A live circuit: the maker's procedure for measuring under power and local rules come "
              "first. Insulated tips, one hand, nothing bridged, no meter on an airbag igniter.",
        0, tips_label);
    for (const std::string& caution : cautions) page.labelled("!", caution, 0, tips_label);
}

void add_outcome(const ExpectedOutcome& outcome, Page& page) {
    page.paragraph(fmt::format("{}: {}{}", outcome.shows, format_chance(outcome.chance),
                               outcome.sound ? ", as on a sound bus" : ""));
    if (outcome.nothing_wrong > 0)
        page.paragraph("nothing wrong " + format_chance(outcome.nothing_wrong), outcome_indent);
    if (outcome.parts.empty()) return;
    page.paragraph(fmt::format("{}: {}", counted(outcome.parts.size(), "part"),
                               likeliest_words(outcome.parts, most_parts, "part",
                                               [](const advice::PartChance& part) { return part.part; })),
                   outcome_indent);
    page.paragraph(
        "likeliest: " + likeliest_words(outcome.faults, most_faults, "fault",
                                        [](const advice::ExpectedFault& fault) { return fault.fault; }),
        outcome_indent);
}

// Those with hardly a chance go into one line.
void add_outcomes(const std::vector<ExpectedOutcome>& outcomes, Page& page) {
    std::vector<std::string> rare;
    for (const ExpectedOutcome& outcome : outcomes) {
        if (outcome.chance < hardly_any) {
            rare.push_back(outcome.shows);
        } else {
            add_outcome(outcome, page);
        }
    }
    if (!rare.empty()) page.paragraph(fmt::format("under 0.1 % each: {}", join(rare, "; ")));
}

// The unit stands in the heading; kilo and mega stay.
std::string cell(double figure, bool told, Power power) {
    std::string words = std::isnan(figure)                          ? "-"
                        : std::isinf(figure) && power != Power::Off ? "floats"
                        : power == Power::Off                       ? format_ohm(figure)
                                                                    : format_volt(figure);
    for (const std::string_view unit : {" ohm", "ohm", " V"}) {
        if (words.ends_with(unit)) words.resize(words.size() - unit.size());
    }
    return words + (told ? "*" : " ");
}

}  // namespace

std::string expectation_text(const advice::Expectation& expectation, const std::string& basis,
                             std::size_t columns) {
    Page page(columns);
    add_tips(expectation.red, expectation.black, expectation.apart, expectation.power, page);
    page.labelled("sound", range_words(expectation.sound, expectation.power), 0, tips_label);
    page.heading(fmt::format("WHAT IT WOULD TELL, {}", basis));
    add_outcomes(expectation.outcomes, page);
    page.paragraph(expectation.outcomes.size() > 1
                       ? "What stands under one figure stays together: this reading cannot tell it apart."
                       : "This reading tells nothing apart.");
    page.heading("BEFORE THE METER");
    add_safety(expectation.cautions, expectation.power, page);
    return page.text();
}

std::string fault_expectation_text(const advice::FaultExpectation& expectation, const std::string& fault,
                                   std::size_t columns) {
    Page page(columns);
    add_tips(expectation.red, expectation.black, expectation.apart, expectation.power, page);
    page.labelled("sound", figure_words(expectation.sound, expectation.power), 0, tips_label);
    page.labelled("here", expectation.variant, 0, tips_label);
    page.heading(fault);
    for (const advice::FaultReading& reading : expectation.readings) {
        const std::string of =
            reading.fault_ohm > 0 ? fmt::format(" (fault of {})", format_ohm(reading.fault_ohm)) : "";
        page.labelled("reads",
                      figure_words(reading.shows, expectation.power) + of +
                          (reading.told ? ", told from a sound bus" : ", cannot be told from a sound bus"),
                      0, tips_label);
    }
    page.heading("BEFORE THE METER");
    add_safety(expectation.cautions, expectation.power, page);
    return page.text();
}

std::string point_table_text(const advice::PointTable& table, const std::string& fault, std::size_t columns) {
    const std::size_t width = std::max<std::size_t>(columns, 30);
    const bool in_volts = table.power != Power::Off;
    const std::string where =
        fmt::format("at every point, {}{}; {}.", fault.empty() ? "sound bus" : "with " + fault,
                    table.variant.empty() ? "" : " (" + table.variant + ")",
                    table.apart.empty() ? "nothing apart" : "apart: " + join_words(table.apart));
    std::string text =
        wrap(in_volts ? fmt::format("Volts {} {}: {}.", where, "Against ground", power_words(table.power))
                      : fmt::format("Ohms {} Clip at {}.", where, table.clip),
             width) +
        "\n\n";
    std::size_t names = 5;
    for (const advice::PointRow& row : table.rows) names = std::max(names, display_width(row.point));
    names = std::min(names, width > 40 ? width - 30 : 14);
    text += table.single_line
                ? fmt::format("{:<{}}{:>8}\n", "point", names, in_volts ? "volts" : "to clip")
                : fmt::format("{:<{}}{:>8} {:>8} {:>8}\n", "point", names, in_volts ? "H " : "H-clip ",
                              in_volts ? "L " : "L-clip ", "H to L");
    for (const advice::PointRow& row : table.rows) {
        std::string name = row.point;
        // A name too long for its column has a line of its own.
        if (display_width(name) > names) {
            text += name + "\n";
            name.clear();
        }
        text += fmt::format("{:<{}}{:>8}", name, names, cell(row.h, row.h_told, table.power));
        if (!table.single_line) {
            text += fmt::format(" {:>8} {:>8}", cell(row.l, row.l_told, table.power),
                                cell(row.h_to_l, row.across_told, table.power));
        }
        while (text.ends_with(' ')) text.pop_back();
        text += "\n";
    }
    if (!fault.empty()) text += wrap("* a meter tells it from a sound bus", width) + "\n";
    const bool absent = std::any_of(table.rows.begin(), table.rows.end(),
                                    [](const advice::PointRow& row) { return std::isnan(row.h); });
    if (absent) text += wrap("- the point is not on this vehicle", width) + "\n";
    return text;
}

}  // namespace halfsplit::report
