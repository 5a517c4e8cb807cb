#include "harness/notes.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/harness/vehicle.hpp"

#include "harness/links.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace halfsplit::harness {

namespace {

constexpr std::size_t most_named = 12;    // ids in one note
constexpr std::size_t most_tried = 1000;  // modules of one bus

std::string some_of(std::vector<std::string> ids) {
    const std::size_t all = ids.size();
    if (all > most_named) {
        ids.resize(most_named);
        ids.push_back(std::to_string(all - most_named) + " more");
    }
    return join_words(ids);
}

// Modules that the pair goes through and that no other way leads round.
class PassThrough {
  public:
    explicit PassThrough(const Harness& harness)
        : harness_(harness), links_(make_links(harness, presence(harness))) {}

    void note(Collector& findings) const {
        std::vector<std::vector<std::string>> opening(harness_.networks.size());
        std::vector<std::size_t> tried(harness_.networks.size());
        for (Index index = 0; index < harness_.parts.size(); ++index) {
            const Part& part = harness_.parts[index];
            if (part.kind != PartKind::Module || part.fitted == Fitted::No) continue;
            for (const Attachment& attachment : part.attachments) {
                if (!attachment.loop || ++tried[attachment.network] > most_tried) continue;
                if (opens(index, attachment)) opening[attachment.network].push_back(part.id);
            }
        }
        for (Index network = 0; network < opening.size(); ++network) say(network, opening[network], findings);
    }

  private:
    bool opens(Index part, const Attachment& attachment) const {
        Islands islands(harness_.terminals.size());
        for (const Link& link : links_) {
            if (link.part != part) islands.join(link.from, link.to);
        }
        const auto parted = [&](std::size_t line) {
            const Index in = attachment.in.terminal[line], out = attachment.out.terminal[line];
            return in != none && out != none && !islands.together(in, out);
        };
        return parted(0) || parted(1);
    }

    void say(Index network, const std::vector<std::string>& parts, Collector& findings) const {
        if (parts.empty()) return;
        findings.note("opens-when-unplugged", "/networks/" + std::to_string(network),
                      {"unplugging " + std::string(parts.size() > 1 ? "any one of " : "") + some_of(parts) +
                           " opens " + harness_.networks[network].id,
                       "", "", "read behind such a plug with it mated, or bridge it while it is apart"});
    }

    const Harness& harness_;
    std::vector<Link> links_;
};

// A pair in one plug: which run brings it, and in which cavities.
struct SeatedPair {
    Index network = none;
    std::string seat;
};

using PlugAndColours = std::tuple<Index, char, std::string>;  // part, half, colours of H and L

void enter_end(const Harness& harness, const Part& run, const std::array<Index, 2>& ends,
               std::map<PlugAndColours, std::vector<SeatedPair>>& plugs) {
    const Terminal& high = harness.terminals[ends[0]];
    const Terminal& low = harness.terminals[ends[1]];
    if (high.half == 0 || high.part != low.part || high.half != low.half) return;
    const Colour &h = run.strand[0]->colour, &l = run.strand[1]->colour;
    if (h.base.empty() || l.base.empty()) return;
    const std::string colours = in_words(h) + " and " + in_words(l);
    plugs[{high.part, high.half, colours}].push_back({run.network, high.cavity + '/' + low.cavity});
}

void note_look_alikes(const Harness& harness, Collector& findings) {
    std::map<PlugAndColours, std::vector<SeatedPair>> plugs;
    for (const Part& run : harness.parts) {
        if (run.kind != PartKind::Run || run.fitted == Fitted::No || !run.strand[0] || !run.strand[1])
            continue;
        enter_end(harness, run, {run.strand[0]->from, run.strand[1]->from}, plugs);
        enter_end(harness, run, {run.strand[0]->to, run.strand[1]->to}, plugs);
    }
    for (const auto& [key, pairs] : plugs) {
        if (pairs.size() < 2) continue;
        const auto& [part, half, colours] = key;
        std::vector<std::string> seats;
        for (const SeatedPair& pair : pairs)
            seats.push_back(pair.seat + " (" + harness.networks[pair.network].id + ')');
        findings.note("look-alike-pairs", harness.parts[part].pointer,
                      {"in " + harness.parts[part].id + '.' + half + " the pairs " + some_of(seats) +
                           " have the same colours, " + colours,
                       "", "", "count the cavities there; the colours do not tell which pair it is"});
    }
}

void note_open_parts(const Harness& harness, Collector& findings) {
    std::vector<std::vector<std::string>> bare(harness.places.size());
    for (const Part& part : harness.parts) {
        const bool shown = part.kind != PartKind::Socket && part.kind != PartKind::BridgePlug;
        if (shown && part.access.place != none && part.access.covers.empty())
            bare[part.access.place].push_back(part.id);
    }
    for (Index place = 0; place < bare.size(); ++place) {
        if (bare[place].empty()) continue;
        findings.note(
            "nothing-in-front", "/places/" + std::to_string(place),
            {"nothing has to come off for " + some_of(bare[place]) + " at " + harness.places[place].id, "",
             "", "name the covers in \"access\", where there are any"});
    }
}

void note_assumed_ways(const Harness& harness, Collector& findings) {
    const std::size_t places = harness.places.size();
    if (places < 2) return;
    std::vector<std::string> assumed;
    for (Index from = 0; from < places; ++from) {
        bool stated = false;
        for (Index to = 0; to < places; ++to)
            stated = stated || (to != from &&
                                harness.travel.minutes[from * places + to] != harness.travel.default_minutes);
        if (!stated) assumed.push_back(harness.places[from].id);
    }
    if (assumed.empty()) return;
    findings.note("way-assumed", "/travel",
                  {"every way from " + some_of(assumed) + " is taken to be as long as any other", "", "",
                   "state the minutes between places under \"travel\", where they differ"});
}

void note_unused(const Harness& harness, Collector& findings) {
    std::set<Index> covers, places{harness.start};
    const auto use = [&](const Access& access) {
        covers.insert(access.covers.begin(), access.covers.end());
        places.insert(access.place);
    };
    for (const Part& part : harness.parts) {
        use(part.access);
        for (const auto& half : part.half_access) {
            if (half) use(*half);
        }
    }
    for (const Cover& cover : harness.covers) covers.insert(cover.under.begin(), cover.under.end());
    const auto say = [&](const char* list, Index index, const std::string& what, const char* next) {
        findings.note("never-used", std::string(list) + std::to_string(index), {what, "", "", next});
    };
    for (Index cover = 0; cover < harness.covers.size(); ++cover) {
        if (!covers.contains(cover))
            say("/covers/", cover, "no part is behind the cover " + harness.covers[cover].id,
                "name it in the \"access\" of the parts behind it, or delete it");
    }
    for (Index place = 0; place < harness.places.size(); ++place) {
        if (!places.contains(place))
            say("/places/", place, "no part is reached from " + harness.places[place].id,
                "name it in the \"access\" of the parts there, or delete it");
    }
}

}  // namespace

void note_meaning(const Harness& harness, Collector& findings) {
    PassThrough(harness).note(findings);
    note_look_alikes(harness, findings);
    note_open_parts(harness, findings);
    note_assumed_ways(harness, findings);
    // A library serves vehicles that have fewer parts than it knows places for.
    if (harness.libraries.empty()) note_unused(harness, findings);
}

}  // namespace halfsplit::harness
