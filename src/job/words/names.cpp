#include "names.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/harness/vehicle.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace halfsplit::job {

namespace {

using harness::Harness;
using harness::Index;

template <typename Things, typename Name>
std::vector<std::string> names_of(const Things& things, Name name) {
    std::vector<std::string> names;
    names.reserve(things.size());
    for (const auto& thing : things) names.push_back(name(thing));
    return names;
}

template <typename Name>
std::vector<std::string> names_up_to(std::size_t count, Name name) {
    std::vector<std::string> names;
    names.reserve(count);
    for (Index i = 0; i < count; ++i) names.push_back(name(i));
    return names;
}

std::vector<std::string> part_names(const Harness& harness) {
    return names_of(harness.parts, [](const harness::Part& part) { return part.id; });
}

std::vector<std::string> terminal_names(const Harness& harness) {
    return names_up_to(harness.terminals.size(), [&](Index i) { return harness::terminal_name(harness, i); });
}

// The only name that is `word` but for case; `none` when there are several or none.
Index ignoring_case(const std::string& word, const std::vector<std::string>& names) {
    Index found = harness::none;
    for (Index i = 0; i < names.size(); ++i) {
        if (lower(names[i]) != lower(word)) continue;
        if (found != harness::none) return harness::none;
        found = i;
    }
    return found;
}

[[noreturn]] void refuse_name(const Input& input, const std::string& word, const std::string& what,
                              const std::vector<std::string>& names, std::string nearest = {}) {
    if (nearest.empty()) nearest = nearest_name(word, names);
    const std::string example = names.empty() ? "" : fmt::format(", like {}", names.front());
    input.refuse_last({"event-name-unknown", fmt::format("no {} is named '{}'", what, word),
                       fmt::format("the name of a {} of this harness{}", what, example), nearest,
                       "Type the name as it stands in the harness file."});
}

// "X3.a:4" or "X3.a" where a part was wanted: most likely X3 was meant.
std::string part_within(const Harness& harness, const std::string& word) {
    const Index part = harness::find_part(harness, word.substr(0, word.find_first_of(".:")));
    return part == harness::none ? "" : harness.parts[part].id;
}

Index point_of_terminal(const Harness& harness, Index terminal) {
    for (Index i = 0; i < harness.points.size(); ++i) {
        const auto& pair = harness.points[i].terminal;
        if (pair[0] == terminal || pair[1] == terminal) return i;
    }
    return harness::none;
}

}  // namespace

Index take_part(Input& input, const Harness& harness) {
    const std::string word = input.take("the name of a part", "Type a part's name, like X3.");
    Index part = harness::find_part(harness, word);
    if (part != harness::none) return part;
    const std::vector<std::string> names = part_names(harness);
    part = ignoring_case(word, names);
    if (part == harness::none) refuse_name(input, word, "part", names, part_within(harness, word));
    return part;
}

Index part_named(const std::string& word, const Harness& harness) {
    const Index part = harness::find_part(harness, word.substr(0, word.find_first_of(".:")));
    if (part != harness::none) return part;
    Input input({word});
    return take_part(input, harness);
}

Index take_cover(Input& input, const Harness& harness) {
    return cover_named(input, input.take("the name of a cover", "Type a cover's name."), harness);
}

Index cover_named(const Input& input, const std::string& word, const Harness& harness) {
    Index cover = harness::find_cover(harness, word);
    if (cover != harness::none) return cover;
    const std::vector<std::string> names =
        names_of(harness.covers, [](const harness::Cover& each) { return each.id; });
    cover = ignoring_case(word, names);
    if (cover == harness::none) refuse_name(input, word, "cover", names);
    return cover;
}

Index take_place(Input& input, const Harness& harness) {
    const std::string word = input.take("the name of a place", "Type a place's name.");
    Index place = harness::find_place(harness, word);
    if (place != harness::none) return place;
    const std::vector<std::string> names =
        names_of(harness.places, [](const harness::Place& each) { return each.id; });
    place = ignoring_case(word, names);
    if (place == harness::none) refuse_name(input, word, "place", names);
    return place;
}

Index take_point(Input& input, const Harness& harness) {
    const std::string word = input.take("the name of a point", "Type a point's name, like X3.a:4/5.");
    Index point = harness::find_point(harness, word);
    if (point != harness::none) return point;
    const std::vector<std::string> names =
        names_up_to(harness.points.size(), [&](Index i) { return harness::point_name(harness, i); });
    point = ignoring_case(word, names);
    if (point != harness::none) return point;
    const Index terminal = ignoring_case(word, terminal_names(harness));
    if (terminal != harness::none) point = point_of_terminal(harness, terminal);
    if (point == harness::none) refuse_name(input, word, "point", names);
    return point;
}

std::string take_tip(Input& input, const Harness& harness) {
    std::string word = input.take("a terminal, or ground, supply or clip",
                                  fmt::format("For example: reading {} clip 0.4", example_terminal(harness)));
    std::string plain = lower(word);
    if (plain == "ground" || plain == "supply" || plain == "clip") return plain;
    if (harness::find_terminal(harness, word) != harness::none) return word;
    std::vector<std::string> names = terminal_names(harness);
    const Index terminal = ignoring_case(word, names);
    if (terminal != harness::none) return names[terminal];
    names.insert(names.end(), {"ground", "supply", "clip"});
    refuse_name(input, word, "terminal", names);
}

Index network_of(const Harness& harness, const std::string& id) {
    if (id.empty() && harness.networks.size() == 1) return 0;
    return harness::find_network(harness, id);
}

std::vector<std::string> modules_of(const Harness& harness, Index network) {
    std::vector<std::string> modules;
    for (const Index module : harness::modules_on(harness, network))
        modules.push_back(harness.parts[module].id);
    return modules;
}

std::string module_named(const Input& input, const std::string& word,
                         const std::vector<std::string>& modules) {
    if (std::find(modules.begin(), modules.end(), word) != modules.end()) return word;
    const Index module = ignoring_case(word, modules);
    if (module == harness::none) refuse_name(input, word, "module on this network", modules);
    return modules[module];
}

std::string example_terminal(const Harness& harness) {
    for (Index i = 0; i < harness.points.size(); ++i) {
        const harness::Point& point = harness.points[i];
        if (point.terminal[0] == harness::none || harness.networks[point.network].clip == i) continue;
        return harness::terminal_name(harness, point.terminal[0]);
    }
    return "X3.a:4";
}

}  // namespace halfsplit::job
