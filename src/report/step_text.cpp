#include "halfsplit/report/step_text.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/report/strip.hpp"

#include <fmt/format.h>

#include "report/reasons.hpp"
#include "report/step_sheet.hpp"
#include "report/step_words.hpp"

#include <algorithm>
#include <cmath>

namespace halfsplit::report {

using advice::Action;
using advice::Recommendation;
using advice::Spot;

namespace {

void add_others(const Spot& spot, StepSheet& sheet) {
    const std::string alike = look_alike_words(spot);
    if (!alike.empty()) sheet.add("", alike, true);
    std::vector<std::string> others;
    for (const advice::OtherWire& other : spot.others)
        if (!other.look_alike) others.push_back(companion_words(other));
    constexpr std::size_t enough = 3;
    const std::size_t more = others.size() > enough ? others.size() - enough : 0;
    others.resize(std::min(others.size(), enough));
    if (!others.empty()) {
        sheet.add("", fmt::format("beside it: cavity {}{}", join(others, "; cavity "),
                                  more > 0 ? fmt::format("; {} more", more) : ""));
    }
}

void add_lead(std::string_view label, const Spot& spot, StepSheet& sheet) {
    sheet.add(label, lead_words(spot), true);
    sheet.add("", half_words(spot));
    add_others(spot, sheet);
}

void add_walk(const std::string& place, double minutes, const std::vector<advice::CoverStep>& covers,
              StepSheet& sheet) {
    if (!place.empty()) sheet.add("go to", fmt::format("{}, {}", place, format_minutes(minutes)));
    for (const advice::CoverStep& cover : covers) sheet.add("open", cover_words(cover));
}

void add_power(const Recommendation& advice, StepSheet& sheet) {
    if (advice.bus.empty()) return;
    std::string text(advice.bus == "awake" ? awake_words : asleep_words);
    for (const advice::Preparation& first : advice.prepare) {
        if (first.step != "wake" && first.step != "sleep") continue;
        text += fmt::format("; {} with battery off and waiting again", format_minutes(first.minutes));
    }
    sheet.add("power", text, true);
}

void add_preparation(const advice::Preparation& first, StepSheet& sheet) {
    if (first.spot.name.empty()) return;  // the battery: see add_power
    add_walk(first.travel_to, first.travel_minutes, first.covers, sheet);
    const LabelledWords words = preparation_words(first);
    sheet.add(words.label, words.words, true);
}

void add_way(const Recommendation& advice, StepSheet& sheet) {
    if (advice.quantity == "volt") sheet.add("CARE", std::string(live_care), true);
    if (advice.action == Action::Scan) sheet.add("CARE", std::string(scan_care), true);
    for (const std::string& caution : advice.cautions) sheet.add("CARE", caution, true);
    for (const advice::Preparation& first : advice.prepare) add_preparation(first, sheet);
    add_power(advice, sheet);
    add_walk(advice.travel_to, advice.travel_minutes, advice.covers, sheet);
}

std::string suspects_line(const Recommendation& advice) {
    constexpr std::size_t enough = 4;
    std::vector<std::string> words;
    for (const advice::PartChance& part : advice.parts) {
        if (words.size() == enough) break;
        words.push_back(fmt::format("{} {}", part.part, format_chance(part.probability)));
    }
    std::string text = join(words, ", ");
    if (advice.parts.size() > enough) text += fmt::format(", {} more", advice.parts.size() - enough);
    if (advice.nothing_wrong >= 0.01)
        text += fmt::format("; nothing wrong {}", format_chance(advice.nothing_wrong));
    return text;
}

// The newest few: what was measured first has led to them.
void add_located(const Recommendation& advice, StepSheet& sheet) {
    constexpr std::size_t enough = 2;
    const auto& all = advice.located;
    for (std::size_t i = all.size() - std::min(all.size(), enough); i < all.size(); ++i) {
        sheet.add("metres",
                  all[i].counts
                      ? all[i].in_words + "."
                      : fmt::format("The distance in record {} does not count: by what the log says "
                                    "now, something was still connected.",
                                    all[i].sequence));
    }
}

void add_doubts(const Recommendation& advice, StepSheet& sheet) {
    for (const advice::Doubt& doubt : advice.doubts) {
        sheet.add("DOUBT",
                  fmt::format("record {}: {} to {} showed {}; the rest of the log expects {}.",
                              doubt.sequence, doubt.red, doubt.black, doubt.shown, doubt.expected),
                  true);
        std::vector<std::string> slips(
            doubt.slips.begin(), doubt.slips.begin() + std::min<std::ptrdiff_t>(3, std::ssize(doubt.slips)));
        sheet.add("", "Likeliest: " + join(slips, "; or ") + ".");
        if (!doubt.probably_on.empty())
            sheet.add("", fmt::format("You were probably on {} ({}).", doubt.probably_on,
                                      format_chance(doubt.chance_of_that)));
        sheet.add("", fmt::format("Re-check: {}.", format_minutes(doubt.recheck_minutes)));
    }
}

void add_lists(const Recommendation& advice, const harness::Harness& harness, StepSheet& sheet) {
    if (!advice.parts_to_reconnect.empty()) sheet.add("plug in", join(advice.parts_to_reconnect, ", "));
    std::vector<std::string> covers;
    for (const std::string& id : advice.covers_to_refit) {
        const harness::Index cover = find_cover(harness, id);
        covers.push_back(cover == harness::none ? id
                                                : fmt::format("{} ({})", harness.covers[cover].name, id));
    }
    if (!covers.empty()) sheet.add("refit", join(covers, ", "));
}

void add_reading(const Recommendation& advice, StepSheet& sheet) {
    add_way(advice, sheet);
    add_lead("probe", advice.red, sheet);
    if (advice.quantity == "volt" && advice.black.name == "ground") {
        sheet.add("other",
                  "any good ground near by" +
                      (advice.black.part_name.empty() ? "" : "; at the socket " + advice.black.part_name),
                  true);
    } else if (advice.black.clip) {
        sheet.add("clip", terminal_words(advice.black));
    } else if (advice.black.part == advice.red.part && advice.black.half == advice.red.half) {
        sheet.add("other", lead_words(advice.black), true);
    } else {
        add_lead("other", advice.black, sheet);
    }
    if (advice.move_loom)
        sheet.add("move",
                  fmt::format("the loom by hand while you read: the fault may come and go ({})",
                              format_chance(advice.comes_and_goes)),
                  true);
    if (advice.recheck) sheet.add("again", "a re-check: prove the probe on a known-good pin first");
}

void add_step(const Recommendation& advice, const harness::Harness& harness, harness::Index network,
              StepSheet& sheet) {
    const bool single_line = harness.networks[network].single_line;
    switch (advice.action) {
        case Action::Intake:
            sheet.add_plain("Before anything else: what is the complaint?");
            break;
        case Action::Scan:
            if (single_line) {
                sheet.add_plain(
                    "Which of what hangs on the line works, as far as can be seen? It costs nothing and "
                    "often "
                    "makes the first split.");
                break;
            }
            if (is_hunting(advice)) {
                add_way(advice, sheet);
                sheet.add("ask", "which modules answer a scan at the diagnostic socket", true);
                break;
            }
            sheet.add_plain(
                "Which modules answer a scan at the diagnostic socket? It costs nothing and often makes "
                "the first split.");
            break;
        case Action::SafeState:
            sheet.add_plain("Before any ohms: " + std::string(safe_state_words));
            break;
        case Action::Read:
            add_reading(advice, sheet);
            break;
        case Action::Look:
            add_way(advice, sheet);
            sheet.add("look",
                      fmt::format("lay bare {} {} and look at it", advice.target.kind,
                                  named_part_words(advice.target)),
                      true);
            break;
        case Action::Repair:
            add_way(advice, sheet);
            sheet.add("repair", fmt::format("{} {}", advice.target.kind, named_part_words(advice.target)),
                      true);
            if (!advice.suspects.empty()) sheet.add("cause", advice.suspects.front().in_words);
            sheet.add("", std::string(mending_words));
            break;
        case Action::Verify:
            for (const advice::Preparation& first : advice.prepare) add_preparation(first, sheet);
            sheet.add_plain("Prove the repair: " +
                            (single_line ? proving_words_of_line()
                                         : proving_words(advice::right_resistance(harness, network))));
            break;
        case Action::Isolated:
            sheet.add_plain(advice.aim.isolate
                                ? "Isolated as far as readings can. With --until bare the plan goes on until "
                                  "the part has been laid bare."
                                : "That is as far as readings go, and looks did not tell about what is left. "
                                  "Look again, or renew what is likeliest, enter it as its repair, and prove "
                                  "it.");
            break;
        case Action::LookElsewhere:
            sheet.add_plain(
                single_line
                    ? "Nothing is wrong on this line as far as the readings can tell. Look at the ground and "
                      "the supply of what does not work before it is suspected itself."
                    : "Nothing is wrong on this bus as far as the readings can tell. Look at supply and "
                      "ground of the silent modules before any module is suspected.");
            break;
        case Action::Refit:
            sheet.add_plain("Cured. Put everything back:");
            break;
        case Action::Close:
            sheet.add_plain("Cured, everything is back. Close the job.");
            break;
        case Action::Closed:
            sheet.add_plain("This job is closed.");
            break;
    }
}

bool shows_suspects(const Recommendation& advice) {
    return is_hunting(advice) || advice.action == Action::Repair || advice.action == Action::Verify ||
           advice.action == Action::Isolated;
}

// Where the hunt stands: the strip, the likeliest parts.
void add_standing(const Recommendation& advice, const harness::Harness& harness, harness::Index network,
                  std::size_t columns, StepSheet& sheet) {
    if (shows_suspects(advice)) {
        StripMarks marks{.cleared = advice.cleared};
        for (const advice::PartChance& part : advice.parts) marks.suspects.push_back(part.part);
        marks.probe = advice.action == Action::Read ? advice.red.part : advice.target.part;
        marks.clip = advice.black.clip ? advice.black.part : advice.red.clip ? advice.red.part : "";
        sheet.add_raw(strip(harness, network, marks, columns));
        sheet.add("likely", suspects_line(advice));
        if (advice.two_faults) sheet.add("", "explanations of two faults are in play");
        add_located(advice, sheet);
    }
    for (const advice::PartChance& part : advice.quieted)
        sheet.add("note", fmt::format("{} may be quiet only because it was apart ({}): clean or renew its "
                                      "contacts; a reseat does not last.",
                                      part.part, format_chance(part.probability)));
    sheet.add("note", advice.cannot_tell);
}

// How far the job has come; before anything was done there is nothing to tell.
void add_progress(const Recommendation& advice, double spent_minutes, StepSheet& sheet) {
    std::vector<std::string> words;
    if (shows_suspects(advice)) words.push_back(counted(advice.parts.size(), "suspect"));
    if (is_hunting(advice))
        words.push_back(fmt::format("{} now, {} expected to {}", format_minutes(advice.minutes_now),
                                    format_minutes(advice.quote.expected_minutes),
                                    advice.aim.isolate ? "isolation" : "the find"));
    if (!words.empty()) {
        sheet.add("left", join(words, "; ") + "; " + format_minutes(spent_minutes) + " spent");
    } else if (advice.action != Action::Intake && advice.action != Action::Closed) {
        sheet.add("spent", format_minutes(spent_minutes));
    }
}

}  // namespace

std::string step_text(const Recommendation& advice, const harness::Harness& harness, harness::Index network,
                      const Screen& screen) {
    constexpr std::size_t enough = 4;
    StepSheet sheet(screen);
    add_standing(advice, harness, network, screen.columns, sheet);
    add_doubts(advice, sheet);
    // What it costs and why come first, what to do last: next to the prompt, where a small screen still shows
    // it.
    if (is_hunting(advice)) add_costs(advice, sheet);
    add_outcomes(advice, enough, sheet);
    add_alternatives(advice, sheet);
    add_turning_points(advice, 1, sheet);
    add_step(advice, harness, network, sheet);
    if (!shows_suspects(advice)) add_lists(advice, harness, sheet);
    return sheet.text();
}

std::string turn_text(const Recommendation& advice, const harness::Harness& harness, harness::Index network,
                      double spent_minutes, const Screen& screen) {
    constexpr std::size_t likeliest = 2;
    StepSheet sheet(screen);
    add_standing(advice, harness, network, screen.columns, sheet);
    add_progress(advice, spent_minutes, sheet);
    add_outcomes(advice, likeliest, sheet);
    add_doubts(advice, sheet);  // a small screen still shows it
    add_step(advice, harness, network, sheet);
    if (!shows_suspects(advice)) add_lists(advice, harness, sheet);
    return sheet.text();
}

std::string prompt_text(const Recommendation& advice) {
    const auto lead = [](const Spot& spot) { return spot.clip ? "clip " + spot.name : spot.name; };
    switch (advice.action) {
        case Action::Intake:
            return "complaint";
        case Action::Scan:
            return "silent modules";
        case Action::SafeState:
            return "y 10 (minutes waited), or n";
        case Action::Read:
            return lead(advice.red) + " to " + lead(advice.black) +
                   (advice.quantity == "volt" ? ", volts" : "");
        case Action::Look:
            return "look at " + advice.target.part;
        case Action::Repair:
            return "repair " + advice.target.part;
        case Action::Verify:
            return "proof";
        case Action::Isolated:
            return "isolated";
        case Action::LookElsewhere:
            return "look elsewhere";
        case Action::Refit:
            return "all back, y or n";
        case Action::Close:
            return "close, y or n";
        case Action::Closed:
            return "closed";
    }
    return "";
}

std::string note_text(const Recommendation& advice) {
    switch (advice.action) {
        case Action::Intake:
            return "intake complaint=\"...\"";
        case Action::Scan:
            return "answers all | silent MODULE,MODULE";
        case Action::SafeState:
            return "safe ignition=off bus=asleep battery=off waited=10";
        case Action::Read:
            return advice.quantity == "volt" ? "2.5 | ? | -" : "0.4 | OL | o | c | ? | -";
        case Action::Look:
            return "faulty | sound | unsure | unreached";
        case Action::Repair:
            return "repair " + advice.target.part + " repaired | replaced | cleaned | reseated";
        case Action::Verify:
            return "verified hl=60.1 answers=all codes=clear complaint=gone";
        case Action::Isolated:
            return "seen PART faulty | repair PART replaced";
        case Action::LookElsewhere:
            return "remark ...";
        case Action::Refit:
            return "cover on COVER | plugged PART";
        case Action::Close:
            return "close";
        case Action::Closed:
            return "";
    }
    return "";
}

std::string suspects_text(const Recommendation& advice, const Screen& screen) {
    std::string text;
    for (const advice::SuspectView& suspect : advice.suspects) {
        text += wrap(fmt::format("{:>8}  {}  [{}]", format_chance(suspect.probability), suspect.in_words,
                                 suspect.fault),
                     screen.columns, 10) +
                "\n";
    }
    if (advice.nothing_wrong > 0) {
        text += wrap(fmt::format("{:>8}  nothing wrong on this bus", format_chance(advice.nothing_wrong)),
                     screen.columns, 10) +
                "\n";
    }
    return text;
}

}  // namespace halfsplit::report
