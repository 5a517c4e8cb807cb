// Events told back in plain words.
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/job/words.hpp"

#include <fmt/format.h>

#include "names.hpp"
#include "tell_distance.hpp"

#include <array>

namespace halfsplit::job {

namespace {

using harness::Harness;
using harness::Index;
using harness::Line;

// As printed on the drawing; empty for a terminal of some other circuit.
std::string line_name(const Harness& harness, const harness::Terminal& terminal) {
    if (terminal.network == harness::none) return "";
    const std::string& name =
        harness.networks[terminal.network].line_name.at(static_cast<std::size_t>(terminal.line));
    return name.empty() ? (terminal.line == Line::High ? "H" : "L") : name;
}

// "X3.a cavity 4"; "S1" at a splice, which has no cavities.
std::string place(const Harness& harness, Index terminal) {
    const harness::Terminal& it = harness.terminals[terminal];
    const harness::Part& part = harness.parts[it.part];
    if (part.kind == harness::PartKind::Splice) return "splice " + part.id;
    return part.id + (it.half != 0 ? std::string(".") + it.half : "") + " cavity " + it.cavity;
}

// " (yellow with a black stripe)", or nothing where no colour is stated.
std::string colour(const Harness& harness, Index terminal) {
    const harness::WireEnd end = harness::wire_at(harness, terminal);
    if (end.run == harness::none) return "";
    const auto& strand = harness.parts[end.run].strand.at(static_cast<std::size_t>(end.line));
    if (!strand || strand->colour.base.empty()) return "";
    return " (" + harness::in_words(strand->colour) + ")";
}

// "Line H, X3.a cavity 4 (yellow with a black stripe)"; `word` is "Line" or "line".
std::string place_on_line(const Harness& harness, Index terminal, const char* word) {
    const std::string line = line_name(harness, harness.terminals[terminal]);
    return (line.empty() ? "" : fmt::format("{} {}, ", word, line)) + place(harness, terminal) +
           colour(harness, terminal);
}

bool same_line(const Harness& harness, Index a, Index b) {
    const harness::Terminal& one = harness.terminals[a];
    const harness::Terminal& other = harness.terminals[b];
    return one.network == other.network && one.line == other.line;
}

// Where both leads were. On one line, the black lead's line and colour would only repeat the red one's.
std::string tips(const Harness& harness, const Reading& reading) {
    const Index red = harness::find_terminal(harness, reading.red);
    const Index black = harness::find_terminal(harness, reading.black);
    if (red == harness::none && black == harness::none) return reading.red + " to " + reading.black;
    if (red == harness::none) return place_on_line(harness, black, "Line") + " from " + reading.red;
    if (black == harness::none) return place_on_line(harness, red, "Line") + " to " + reading.black;
    return place_on_line(harness, red, "Line") + " to " +
           (same_line(harness, red, black) ? place(harness, black) : place_on_line(harness, black, "line"));
}

std::string value(const Reading& reading) {
    switch (reading.outcome) {
        case Outcome::Value:
            break;
        case Outcome::Closed:
            return "closed (beep)";
        case Outcome::Open:
            return "open (no beep)";
        case Outcome::NotSure:
            return "not sure";
        case Outcome::CouldNotReach:
            return "could not reach it";
    }
    if (reading.quantity == Quantity::Volt) return format_volt(reading.value);
    const std::string ohms = format_ohm(reading.value);
    return ohms == "OL" ? "OL (over the range: open)" : ohms;
}

std::string part_name(const Harness& harness, const std::string& id) {
    const Index part = harness::find_part(harness, id);
    if (part == harness::none || harness.parts[part].name.empty()) return id;
    return fmt::format("{} ({})", id, harness.parts[part].name);
}

std::string cover_name(const Harness& harness, const std::string& id) {
    const Index cover = harness::find_cover(harness, id);
    return cover == harness::none || harness.covers[cover].name.empty() ? id : harness.covers[cover].name;
}

std::string capitalised(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

// ": what was said", or nothing.
std::string said(const std::string& what) {
    return what.empty() ? "" : ": " + what;
}

std::string listed(const std::vector<std::string>& names) {
    return names.empty() ? "none" : join_words(names);
}

constexpr const char* implied_words = " (it had to be; say so if it was not)";

class Teller {
  public:
    explicit Teller(const Harness& harness) : harness_(harness) {}

    std::string operator()(const Opened& opened) const {
        const std::string network = opened.network.empty() ? "" : fmt::format(", network {}", opened.network);
        return fmt::format("Job opened on {}{}; fingerprint of the harness {}", opened.harness_file, network,
                           opened.harness_sha256.substr(0, 8));
    }
    std::string operator()(const Intake& intake) const {
        std::string text = "Complaint: " + (intake.complaint.empty() ? "not stated" : intake.complaint);
        if (!intake.conditions.empty()) text += ". It happens when: " + join_words(intake.conditions);
        if (!intake.recent_work.empty()) text += ". Recent work: " + intake.recent_work;
        if (!intake.replaced.empty()) text += ". Replaced before: " + join_words(intake.replaced);
        return text;
    }
    std::string operator()(const SafeState& safe) const {
        // Nobody waits for a bus to be live.
        const std::string waited = safe.waited_minutes > 0 ? ", waited " + format_minutes(safe.waited_minutes)
                                   : safe.battery_off      ? ", waiting time not stated"
                                                           : "";
        return fmt::format("Ignition {}, bus {}, battery {}{}", safe.ignition_off ? "off" : "on",
                           safe.bus_asleep ? "asleep" : "awake", safe.battery_off ? "off" : "connected",
                           waited);
    }
    std::string operator()(const Answers& answers) const {
        return fmt::format("Answering: {}. Silent: {}", listed(answers.answering), listed(answers.silent));
    }
    std::string operator()(const Reading& reading) const {
        return tips(harness_, reading) + ": " + value(reading) +
               (reading.moved ? ", while the loom was moved" : "") + (reading.wet ? ", wet" : "");
    }
    std::string operator()(const Distance& distance) const {
        return fmt::format("{}: {}", measured_words(distance, harness_), where_it_lies(distance, harness_));
    }
    std::string operator()(const Seen& seen) const {
        constexpr std::array<const char*, 4> looks{"faulty", "sound", "not sure", ""};
        if (seen.verdict == Verdict::CouldNotReach)
            return fmt::format("Could not get to {}{}", part_name(harness_, seen.part),
                               seen.what.empty() ? "" : ": " + seen.what);
        return fmt::format("Looked at {}: {}{}", part_name(harness_, seen.part),
                           looks.at(static_cast<std::size_t>(seen.verdict)),
                           seen.what.empty() ? "" : ", " + seen.what);
    }
    std::string operator()(const VehicleDiffers& differs) const {
        using Unlike = harness::Difference::Kind;
        const harness::Difference& it = differs.difference;
        const std::string there =
            it.place.empty()
                ? ""
                : ", at " + it.place + (it.covers.empty() ? "" : " under " + join_words(it.covers));
        switch (it.kind) {
            case Unlike::Fitted:
                return fmt::format("On this vehicle {}: {}", it.id,
                                   it.fitted == harness::Fitted::Yes  ? "fitted after all"
                                   : it.fitted == harness::Fitted::No ? "not fitted"
                                                                      : "not known whether it is fitted");
            case Unlike::Connector:
                return fmt::format("A connector found in {}: {}{}{}", it.run, it.id,
                                   it.after_m ? fmt::format(", after {:.3g} m", *it.after_m) : "", there);
            case Unlike::Place:
                return fmt::format("{} is elsewhere{}", part_name(harness_, it.id), there);
            case Unlike::Minutes:
                return fmt::format("{}: {:.3g} min off, {:.3g} min on",
                                   capitalised(cover_name(harness_, it.id)), it.off_minutes, it.on_minutes);
        }
        return "";
    }
    std::string operator()(const CoverChange& change) const {
        return capitalised(cover_name(harness_, change.cover)) + (change.off ? " is off" : " is on again") +
               (change.implied ? implied_words : "");
    }
    std::string operator()(const PlugChange& change) const {
        return part_name(harness_, change.part) + (change.plugged ? " is plugged in" : " is unplugged") +
               (change.implied ? implied_words : "");
    }
    std::string operator()(const ClipMoved& clip) const { return "The clip is at " + clip.point; }
    std::string operator()(const Repair& repair) const {
        constexpr std::array<const char*, 5> done{"reseated", "cleaned", "repaired", "replaced",
                                                  "fitted as a bridge plug"};
        return fmt::format("{} {}{}", part_name(harness_, repair.part),
                           done.at(static_cast<std::size_t>(repair.action)), said(repair.what));
    }
    std::string operator()(const Verified& verified) const {
        std::vector<std::string> found;
        if (verified.h_to_l_ohm) found.push_back("H to L " + format_ohm(*verified.h_to_l_ohm));
        if (verified.all_answer)
            found.emplace_back(*verified.all_answer ? "all modules answer" : "not all modules answer");
        if (verified.codes_clear)
            found.emplace_back(*verified.codes_clear ? "codes clear" : "codes stored again");
        if (verified.complaint_gone)
            found.emplace_back(*verified.complaint_gone ? "the complaint is gone" : "the complaint is back");
        return "Proof of the repair: " + (found.empty() ? "nothing tried yet" : join(found, ", "));
    }
    std::string operator()(const MeterUsed& used) const {
        const harness::MeterProfile& meter = used.meter;
        return fmt::format(
            "Meter {}: {:.3g} % and {:.3g} digits of {:.0f} counts, leads {}, OL from {}, buzzer {} to {}",
            meter.name, meter.percent, meter.digits, meter.counts, format_ohm(meter.lead_ohm),
            format_ohm(meter.limit_ohm), format_ohm(meter.buzzer_low_ohm), format_ohm(meter.buzzer_high_ohm));
    }
    std::string operator()(const PinsTried& pins) const {
        return fmt::format("{} good pin{} tried, {} slip{}", pins.tried, pins.tried == 1 ? "" : "s",
                           pins.slips, pins.slips == 1 ? "" : "s");
    }
    std::string operator()(const Remark& remark) const { return "Remark: " + remark.text; }
    std::string operator()(const Paused&) const { return "Paused; the minutes stop here"; }
    std::string operator()(const Resumed&) const { return "Going on; the minutes count again"; }
    std::string operator()(const Closed&) const { return "Job closed"; }
    std::string operator()(const Recommended&) const {
        return "Advice on the next step, kept as it was given";
    }
    std::string operator()(const Amend& amend) const {
        if (!amend.event) return fmt::format("Record {} amended", amend.target);
        return fmt::format("Record {} now says: {}", amend.target, std::visit(*this, amend.event->body)) +
               minutes(amend.event->minutes);
    }
    std::string operator()(const Undo& undo) const { return fmt::format("Record {} undone", undo.target); }

    static std::string minutes(const std::optional<double>& minutes) {
        return minutes ? ". Minutes entered: " + format_minutes(*minutes) : "";
    }

  private:
    const Harness& harness_;
};

}  // namespace

std::string in_words(const Event& event, const Harness& harness) {
    std::string text = std::visit(Teller(harness), event.body) + Teller::minutes(event.minutes);
    for (char& c : text) {
        if (c == '\n') c = ' ';
    }
    text = printable(text);
    if (text.back() != '.' && text.back() != '?' && text.back() != '!') text += '.';
    return text;
}

}  // namespace halfsplit::job
