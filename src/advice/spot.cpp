#include "advice/spot.hpp"

#include "halfsplit/base/units.hpp"
#include "halfsplit/harness/companions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <initializer_list>

namespace halfsplit::advice {

using harness::Harness;
using harness::Index;
using harness::none;
using harness::Part;

namespace {

// Usual cautions of the trade; the maker's procedure goes before all of them (common practice, no source).
struct Caution {
    std::string_view word, sentence;
};
constexpr std::array<Caution, 7> known_cautions{{
    {"airbag",
     "Airbag circuit: battery off and the maker's waiting time first; never a meter on an igniter. Follow "
     "the maker's "
     "procedure."},
    {"high voltage",
     "High voltage (orange cable): qualified people only, after the maker's isolation procedure."},
    {"lifting", "Lifting: support the vehicle as its maker says before anyone goes under it."},
    {"hot", "Hot parts: let them cool."},
    {"moving", "Moving parts: make sure nothing can start."},
    {"hydraulics", "Hydraulics: lower or lock the equipment and release the pressure as its maker says."},
    {"gas", "Gas: shut off and air the place; licensed people only."},
}};

std::string sentence(const std::string& caution) {
    std::string plain = caution;
    std::replace(plain.begin(), plain.end(), '_', ' ');
    for (const Caution& known : known_cautions) {
        if (plain == known.word) return std::string(known.sentence);
    }
    return caution;
}

// Empty on a single line, which needs no telling apart.
std::string line_of(const Harness& harness, Index terminal) {
    const Index network = harness.terminals[terminal].network;
    if (network != none && harness.networks[network].single_line) return "";
    const harness::WireEnd wire = wire_at(harness, terminal);
    if (wire.run != none) return wire.line == harness::Line::High ? "H" : "L";
    for (const harness::Point& point : harness.points) {
        if (point.terminal[0] == terminal) return "H";
        if (point.terminal[1] == terminal) return "L";
    }
    return "";
}

// Where ground and supply can be had at the diagnostic socket: "DS cavity 4"; empty where the file does not
// say.
std::string cavity_at_socket(const Harness& harness, std::string_view circuit) {
    for (const Part& part : harness.parts) {
        if (part.kind != harness::PartKind::Socket) continue;
        for (const harness::OtherWire& wire : part.other_wires) {
            if (wire.circuit == circuit)
                return fmt::format("{} cavity {}", part.id, harness.terminals[wire.terminal].cavity);
        }
    }
    return "";
}

}  // namespace

Spot spot_of_part(const Harness& harness, Index index) {
    const Part& part = harness.parts[index];
    Spot spot;
    spot.name = part.id;
    spot.part = part.id;
    spot.part_name = part.name;
    spot.kind = std::string(word(part.kind));
    if (part.access.place != none) {
        spot.place = harness.places[part.access.place].id;
        spot.place_name = harness.places[part.access.place].name;
    }
    return spot;
}

Spot spot_of(const Harness& harness, const diagnosis::Contact& contact) {
    if (contact.kind != diagnosis::Contact::Kind::Terminal) {
        Spot spot;
        spot.name = contact.kind == diagnosis::Contact::Kind::Ground ? "ground" : "supply";
        spot.part_name = cavity_at_socket(harness, spot.name);
        return spot;
    }
    const harness::Terminal& terminal = harness.terminals[contact.terminal];
    Spot spot = spot_of_part(harness, terminal.part);
    spot.name = terminal_name(harness, contact.terminal);
    spot.cavity = terminal.cavity;
    if (terminal.half != 0) {
        spot.half = std::string(1, terminal.half);
        spot.half_name = harness.parts[terminal.part].half_name[terminal.half == 'b' ? 1 : 0];
    }
    spot.line = line_of(harness, contact.terminal);
    spot.colour = in_words(harness::colour_at(harness, contact.terminal));
    const Index place = access_of(harness, contact.terminal).place;
    if (place != none) {
        spot.place = harness.places[place].id;
        spot.place_name = harness.places[place].name;
    }
    for (const harness::Companion& other : companions(harness, contact.terminal)) {
        spot.others.push_back({harness.terminals[other.terminal].cavity, in_words(other.colour),
                               other.circuit, other.look_alike});
    }
    return spot;
}

std::vector<CoverStep> cover_steps(const Harness& harness, const std::vector<Index>& covers) {
    std::vector<CoverStep> steps;
    for (const Index index : covers) {
        const harness::Cover& cover = harness.covers[index];
        steps.push_back({cover.id, cover.name, cover.off_minutes, cover.on_minutes, cover.cautions});
    }
    return steps;
}

std::vector<std::string> cautions(const Harness& harness, Index place, const std::vector<Index>& covers) {
    std::vector<std::string> words;
    if (place != none) words = harness.places[place].cautions;
    for (const Index cover : covers) {
        const auto& own = harness.covers[cover].cautions;
        words.insert(words.end(), own.begin(), own.end());
    }
    std::vector<std::string> sentences;
    for (const std::string& word : words) {
        std::string text = sentence(word);
        if (std::find(sentences.begin(), sentences.end(), text) == sentences.end())
            sentences.push_back(std::move(text));
    }
    return sentences;
}

std::vector<std::string> cautions_at(const Harness& harness, const access::Costs& costs,
                                     const std::vector<access::Site>& sites) {
    std::vector<std::string> sentences;
    for (const access::Site& site : sites) {
        for (std::string& text : cautions(harness, site.place, costs.to_take_off(site, 0))) {
            if (std::find(sentences.begin(), sentences.end(), text) == sentences.end())
                sentences.push_back(std::move(text));
        }
    }
    return sentences;
}

std::vector<std::string> assumed(const Harness& harness, const harness::Assumptions& rates) {
    // A sentence names a whole family of figures; it is assumed as long as one of them is.
    const auto stated = [&](std::initializer_list<std::string_view> members) {
        return std::all_of(members.begin(), members.end(), [&](std::string_view member) {
            return std::find(rates.stated.begin(), rates.stated.end(), member) != rates.stated.end();
        });
    };
    std::vector<std::string> sentences;
    for (const harness::Library& library : harness.libraries) {
        if (!library.source.empty())
            sentences.push_back(fmt::format(
                "minutes of {}: {}", library.title.empty() ? library.file : library.title, library.source));
    }
    if (!stated({"connector_weight", "plug_weight", "splice_weight", "terminator_weight", "module_weight",
                 "wire_weight_per_m"})) {
        sentences.push_back(
            fmt::format("weights: mated connector {}, bridge plug {}, splice {}, terminator {}, module {}, "
                        "wire {} per metre",
                        rates.connector_weight, rates.plug_weight, rates.splice_weight,
                        rates.terminator_weight, rates.module_weight, rates.wire_weight_per_m));
    }
    if (!stated({"open_share", "joint_share", "short_share"})) {
        sentences.push_back(fmt::format("open : bad joint : short = {} : {} : {}", rates.open_share,
                                        rates.joint_share, rates.short_share));
    }
    if (!stated({"contact_slip"})) {
        sentences.push_back(
            fmt::format("a probe makes no contact {} of the time", format_chance(rates.contact_slip)));
    }
    if (!stated(
            {"silent_both_open", "silent_one_open", "silent_short", "silent_terminator", "silent_sound"})) {
        sentences.push_back(
            fmt::format("a module stays silent: both lines open {}, one open {}, a short {}, a terminator "
                        "out of reach {}, nothing in the way {}",
                        format_chance(rates.silent_both_open), format_chance(rates.silent_one_open),
                        format_chance(rates.silent_short), format_chance(rates.silent_terminator),
                        format_chance(rates.silent_sound)));
    }
    if (!stated({"meter_percent", "meter_digits", "meter_counts", "meter_lead_ohm", "meter_limit_ohm",
                 "buzzer_low_ohm", "buzzer_high_ohm"})) {
        sentences.push_back(fmt::format(
            "the meter: {:.3g} % and {:.3g} digits of {:.0f} counts, leads {}, OL from {}, buzzer {} to {}",
            rates.meter_percent, rates.meter_digits, rates.meter_counts, format_ohm(rates.meter_lead_ohm),
            format_ohm(rates.meter_limit_ohm), format_ohm(rates.buzzer_low_ohm),
            format_ohm(rates.buzzer_high_ohm)));
    }
    if (!stated({"intermittent", "intermittent_told", "quiet_at_rest", "quiet_when_provoked"})) {
        sentences.push_back(fmt::format(
            "a fault comes and goes {} of the time, {} where the complaint says so; it is quiet at rest {}, "
            "when moved or wet {}",
            format_chance(rates.intermittent), format_chance(rates.intermittent_told),
            format_chance(rates.quiet_at_rest), format_chance(rates.quiet_when_provoked)));
    }
    if (!stated({"wrong_wire"})) {
        sentences.push_back(
            fmt::format("a look-alike wire is taken {} of the time", format_chance(rates.wrong_wire)));
    }
    return sentences;
}

}  // namespace halfsplit::advice
