#include "halfsplit/base/ranking.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/report/survey_report.hpp"

#include <fmt/format.h>

#include "report/page.hpp"
#include "report/quote.hpp"

#include <algorithm>

namespace halfsplit::report {

using advice::AmbiguityGroup;
using advice::ExtraTest;
using advice::Share;

namespace {

constexpr std::size_t survey_indent = 2;
constexpr std::size_t survey_label = 10;
constexpr std::size_t share_width = 12;
constexpr std::size_t most_groups = 10;
constexpr std::size_t most_names = 12;

std::string cut_list(const std::vector<std::string>& names, std::size_t most = most_names) {
    if (names.size() <= most + 1) return join(names, ", ");
    const std::vector<std::string> first(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(most));
    return fmt::format("{} and {} more", join(first, ", "), names.size() - most);
}

void add_share(std::string_view label, const Share& share, Page& page) {
    page.labelled(label,
                  fmt::format("{:<12}{}", format_chance(share.of_faults), format_chance(share.by_chance)),
                  survey_indent, share_width);
}

void add_figures(const advice::Survey& survey, Page& page) {
    page.labelled("surveyed",
                  fmt::format("{} in {}, {}, {} from the clip at {}", counted(survey.faults, "fault"),
                              counted(survey.parts, "part"), counted(survey.points, "probe point"),
                              counted(survey.readings, "reading"), survey.clip.empty() ? "-" : survey.clip),
                  survey_indent, survey_label);
    if (survey.variants.size() > 1) {
        page.labelled("variants",
                      fmt::format("{}; a fault counts once in each", join(survey.variants, " / ")),
                      survey_indent, survey_label);
    }
    page.labelled("share of", "faults      by chance", survey_indent, share_width);
    add_share("detected", survey.detected, page);
    add_share("to 1 part", survey.to_one, page);
    add_share("to 2 parts", survey.to_two, page);
    add_share("to 3 parts", survey.to_three, page);
    const std::size_t groups = survey.groups.size();
    page.labelled("groups",
                  groups == 0 ? "every fault is isolated to one part"
                              : fmt::format("{} not isolated to one part; the largest has {}",
                                            counted(groups, "group"), counted(survey.largest_group, "part")),
                  survey_indent, survey_label);
}

void add_quote(const advice::Survey& survey, Page& page) {
    if (survey.clip.empty()) return;
    page.labelled("quote", quote_words(survey.quote, survey.aim, "the start"), survey_indent, survey_label);
    page.labelled("not cured", not_cured_words(survey.not_cured), survey_indent, survey_label);
}

std::string test_words(const ExtraTest& test) {
    std::string text;
    if (!test.unplug.empty()) {
        text = fmt::format("{} {}, ", test.unplug_kind == "connector" ? "unmate" : "unplug",
                           with_name(test.unplug, test.unplug_name));
    }
    if (test.red_line == "H" && test.black_line == "L")
        return text + fmt::format("read H to L at {} and {}", test.red, test.black);
    const std::string line = test.red_line.empty() ? "" : "line " + test.red_line;
    if (test.black_line.empty() && !test.moves_clip)
        return text +
               fmt::format("read {}{} to {}", test.red, line.empty() ? "" : " (" + line + ")", test.black);
    const std::string remarks = line + (line.empty() || !test.moves_clip ? "" : "; ") +
                                (test.moves_clip ? "the clip goes there" : "");
    return text + fmt::format("read {} to {} ({})", test.red, test.black, remarks);
}

std::string outcome_words(const advice::SplitOutcome& outcome) {
    std::string parts =
        outcome.parts.size() <= 4 ? join(outcome.parts, ", ") : counted(outcome.parts.size(), "part");
    if (outcome.sound) parts += parts.empty() ? "nothing wrong" : " or nothing wrong";
    return fmt::format("{}: {} ({})", outcome.shows, parts, format_chance(outcome.chance));
}

void add_test(std::string_view label, const ExtraTest& test, Page& page) {
    std::vector<std::string> outcomes;
    for (const advice::SplitOutcome& outcome : test.outcomes) outcomes.push_back(outcome_words(outcome));
    page.labelled(label,
                  fmt::format("{}: {}, {:.2f} bit. {}.", test_words(test), format_minutes(test.minutes),
                              test.bits, join(outcomes, "; ")),
                  4, survey_label);
}

// Groups with the same parts and modes: those of line H and line L, as a rule. The likeliest stands for all.
struct Alike {
    const AmbiguityGroup* first = nullptr;
    std::size_t groups = 0, faults = 0;
    double chance = 0;
};

// Those of one section, likeliest first.
template <typename Wanted>
std::vector<Alike> alike_together(const advice::Survey& survey, Wanted wanted) {
    std::vector<Alike> result;
    for (const AmbiguityGroup& group : survey.groups) {
        if (!wanted(group)) continue;
        // Where only looking tells, the modes make no difference.
        auto known = std::find_if(result.begin(), result.end(), [&](const Alike& other) {
            return other.first->parts == group.parts && other.first->variants == group.variants &&
                   (!group.cheapest || other.first->modes == group.modes);
        });
        if (known == result.end()) known = result.insert(result.end(), {&group});
        ++known->groups;
        known->faults += group.faults.size();
        known->chance += group.chance;
    }
    std::stable_sort(result.begin(), result.end(),
                     [](const Alike& a, const Alike& b) { return likelier(a.chance, b.chance); });
    return result;
}

void add_group(const advice::Survey& survey, const Alike& alike, Page& page) {
    const AmbiguityGroup& group = *alike.first;
    std::string text = format_chance(alike.chance) + ": ";
    text += group.parts.size() == survey.parts && survey.parts > 3
                ? fmt::format("all {} parts", survey.parts)
                : fmt::format("{}: {}", counted(group.parts.size(), "part"), cut_list(group.parts));
    text += fmt::format("; {} ({})", counted(alike.faults, "fault"), join(group.modes, ", "));
    if (alike.groups > 1) text += fmt::format(" in {} groups alike", alike.groups);
    if (!group.variants.empty()) text += fmt::format("; {}", join(group.variants, " / "));
    page.paragraph(text, survey_indent);
    if (group.cheapest) add_test(group.sharpest ? "cheapest" : "split by", *group.cheapest, page);
    if (group.sharpest) add_test("sharpest", *group.sharpest, page);
}

void add_rest(std::size_t all, Page& page) {
    if (all > most_groups)
        page.paragraph(fmt::format("and {} more: see --json", all - most_groups), survey_indent);
}

void add_unseen(const advice::Survey& survey, Page& page) {
    const std::vector<Alike> all =
        alike_together(survey, [](const AmbiguityGroup& group) { return group.sound; });
    if (all.empty()) return;
    page.heading("NO READING SEES THESE; a scan of who answers may");
    for (std::size_t i = 0; i < std::min(all.size(), most_groups); ++i) {
        add_group(survey, all[i], page);
        if (!all[i].first->cheapest)
            page.paragraph("no further reading tried sees them: only looking tells", 4);
    }
    add_rest(all.size(), page);
}

void add_split(const advice::Survey& survey, Page& page) {
    const std::vector<Alike> all = alike_together(
        survey, [](const AmbiguityGroup& group) { return !group.sound && group.cheapest.has_value(); });
    if (all.empty()) return;
    page.heading("STAY TOGETHER, and what would split them");
    for (std::size_t i = 0; i < std::min(all.size(), most_groups); ++i) add_group(survey, all[i], page);
    add_rest(all.size(), page);
}

void add_only_looking(const advice::Survey& survey, Page& page) {
    const std::vector<Alike> all = alike_together(
        survey, [](const AmbiguityGroup& group) { return !group.sound && !group.cheapest.has_value(); });
    if (all.empty()) return;
    page.heading("STAY TOGETHER, and only looking tells");
    for (std::size_t i = 0; i < std::min(all.size(), most_groups); ++i) {
        const AmbiguityGroup& group = *all[i].first;
        page.labelled(format_chance(all[i].chance),
                      fmt::format("{}{}", cut_list(group.parts),
                                  group.variants.empty() ? "" : "; " + join(group.variants, " / ")),
                      survey_indent, share_width);
    }
    add_rest(all.size(), page);
}

std::vector<std::string> cautions_of(const advice::Survey& survey) {
    std::vector<std::string> result;
    const auto add = [&](const std::optional<ExtraTest>& test) {
        if (!test) return;
        for (const std::string& caution : test->cautions) {
            if (std::find(result.begin(), result.end(), caution) == result.end()) result.push_back(caution);
        }
    };
    for (const AmbiguityGroup& group : survey.groups) {
        add(group.cheapest);
        add(group.sharpest);
    }
    return result;
}

void add_network(const advice::Survey& survey, Page& page) {
    page.heading(fmt::format("BUS {}{}", survey.network,
                             survey.network_name.empty() ? "" : " (" + survey.network_name + ")"));
    add_figures(survey, page);
    add_quote(survey, page);
    add_unseen(survey, page);
    add_split(survey, page);
    add_only_looking(survey, page);
    add_costly_parts(survey.costly, "DEAREST TO LAY BARE, from the start, refitting included", page);
    const std::vector<std::string> cautions = cautions_of(survey);
    if (!cautions.empty()) page.heading("CAUTIONS for these readings");
    for (const std::string& caution : cautions) page.labelled("!", caution, survey_indent, 2);
}

}  // namespace

std::string survey_text(const std::vector<advice::Survey>& networks, std::size_t columns) {
    Page page(columns);
    for (const advice::Survey& survey : networks) add_network(survey, page);
    if (networks.empty() || networks.front().assumed.empty()) return page.text();
    page.heading("ASSUMED");
    for (const std::string& sentence : networks.front().assumed)
        page.labelled("-", sentence, survey_indent, 2);
    return page.text();
}

}  // namespace halfsplit::report
