#include "halfsplit/draft/unfinished.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/sheet_lines.hpp"
#include "draft/things.hpp"
#include "harness/assembled.hpp"

namespace halfsplit::draft {

namespace {

void tell_carried(const Bus& bus, Unfinished& state) {
    const Carried& carried = bus.chain.carried();
    state.place = carried.stand.place;
    for (const std::string& cover : carried.stand.covers) state.place += "/" + cover;
    if (!carried.colour[0].base.empty() || !carried.colour[1].base.empty()) {
        state.colours = colour_word(carried.colour[0]);
        if (!bus.single) state.colours += "/" + colour_word(carried.colour[1]);
    }
    if (carried.gauge.contains("section_mm2"))
        state.section = short_number(carried.gauge["section_mm2"]) + "mm2";
    if (carried.gauge.contains("awg")) state.section = short_number(carried.gauge["awg"]) + "awg";
}

void tell_here(const Bus& bus, Unfinished& state) {
    const auto& here = bus.chain.here();
    if (!here) return;
    state.here = here->part;
    if (here->half != 0) state.here += fmt::format(".{}", here->half);
    if (here->pair[0] == "H") return;
    state.here += " " + here->pair[0];
    if (!bus.single) state.here += "/" + here->pair[1];
}

std::optional<harness::Harness> harness_so_far(std::string_view text, Sheet& sheet, const DraftRules& rules) {
    take_usual_values(sheet);
    const std::string json = sheet.document.whole().dump();
    try {
        const harness::Assembled assembled(json, sheet.file, &sheet.files, rules.include);
        const std::map<std::string, At> nowhere;
        return harness::read_document(assembled.document(), SheetOrigins(text, sheet.file, nowhere)).harness;
    } catch (const InputError&) {
        return std::nullopt;  // said when the sheet is drafted
    }
}

}  // namespace

Unfinished read_unfinished(std::string_view text, const std::string& file_name, Files& files,
                           const DraftRules& rules) {
    Sheet sheet(file_name, files, rules.include);
    Unfinished state;
    if (!check_encoding(text, sheet)) {
        state.errors = std::move(sheet.findings);
        return state;
    }
    read_lines(text, sheet);
    state.errors = told(std::move(sheet.findings), text, sheet);
    sheet.findings.clear();
    state.things = sheet.document.thing_ids();
    state.places = sheet.places.ids;
    state.covers = sheet.covers.ids;
    state.options = sheet.options.ids;
    if (sheet.buses.empty()) return state;
    const Bus& bus = sheet.bus();
    state.bus = bus.id;
    state.single_line = bus.single;
    state.begun = bus.begun;
    tell_carried(bus, state);
    tell_here(bus, state);
    if (state.errors.empty() && bus.begun) state.harness = harness_so_far(text, sheet, rules);
    return state;
}

Taken taken_for(const std::string& name, std::size_t pairs) {
    ThingWords words;
    words.id = name;
    words.pairs.resize(pairs);
    const KindGuess guess = guess_kind(words);
    return {kind_word(guess.kind), *guess.note != 0};
}

}  // namespace halfsplit::draft
