#include "draft/kbl_values.hpp"

#include "halfsplit/base/text.hpp"

#include "draft/colour_words.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace halfsplit::draft {

namespace {

// SI_prefix of the schema.
double factor_of(const std::string& prefix) {
    constexpr std::array<std::pair<std::string_view, double>, 4> prefixes{
        {{"micro", 1e-6}, {"milli", 1e-3}, {"centi", 1e-2}, {"kilo", 1e3}}};
    for (const auto& [name, factor] : prefixes) {
        if (prefix == name) return factor;
    }
    return 1;
}

// How many metres, or square metres, the unit has; 0 where it is no such unit.
double metres_of(pugi::xml_node unit, bool square) {
    const std::string name = kbl_text(unit, "Unit_name");
    if (kbl_text(unit, "Si_unit_name") == "metre") {
        const double factor = factor_of(kbl_text(unit, "Si_prefix"));
        if ((kbl_text(unit, "Si_dimension") == "square") != square) return 0;
        return square ? factor * factor : factor;
    }
    if (square) return name == "mm2" || name == "mm²" || name == "sqmm" ? 1e-6 : 0;
    if (name == "mm") return 1e-3;
    return name == "m" ? 1 : 0;
}

}  // namespace

std::optional<double> kbl_number(std::string_view text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = error == std::errc{} && end == text.data() + text.size() && !text.empty();
    if (!whole || !std::isfinite(value)) return std::nullopt;
    return value;
}

double kbl_figure(const KblFile& file, pugi::xml_node node, const char* child, bool square) {
    const pugi::xml_node value = node.child(child);
    const double number = kbl_number(kbl_text(value, "Value_component")).value_or(0);
    const double metres = metres_of(file.find(kbl_text(value, "Unit_component")), square);
    const double figure = number * metres * (square ? 1e6 : 1);
    return figure > 0 && std::isfinite(figure) ? figure : 0;
}

harness::Colour kbl_colour(pugi::xml_node part, const char* child, std::vector<std::string>& left_out) {
    harness::Colour colour;
    for (const pugi::xml_node entry : part.children(child)) {
        const std::string value = kbl_text(entry, "Colour_value");
        if (value.empty()) continue;
        const std::string type = lower(kbl_text(entry, "Colour_type"));
        const bool is_base = colour.base.empty() && type.find("kenn") == std::string::npos &&
                             type.find("stripe") == std::string::npos;
        const ReadColour read = read_colour_words(value, ColourCodes::German);
        std::string& field = is_base ? colour.base : colour.stripe;
        if (read.colour.base.empty() || !field.empty() || !read.colour.stripe.empty()) {
            left_out.push_back("colour \"" + value + "\" of " + kbl_name(part) + ": " +
                               (read.why.empty() ? "more colours than a base and a stripe" : read.why));
            continue;
        }
        field = read.colour.base;
    }
    if (colour.base.empty()) std::swap(colour.base, colour.stripe);
    return colour;
}

}  // namespace halfsplit::draft
