#include "draft/follow.hpp"

#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "draft/source.hpp"
#include "harness/links.hpp"

#include <algorithm>
#include <set>

namespace halfsplit::draft {

namespace {

constexpr std::size_t most_runs = 19'000;  // a harness file has room for 20,000, those of joints included

std::string why_no_line(const Loom& loom, const LoomWire& wire) {
    if (!wire.unusable.empty()) return wire.unusable;
    for (const LoomEnd& end : wire.ends) {
        if (end.part == nowhere) return "one of its ends is nowhere";
    }
    if (wire.ends[0].part != wire.ends[1].part) return {};
    return "both its ends are in " + loom.parts[wire.ends[0].part].id +
           ", and a wire within one part is not drawn";
}

class Follower {
  public:
    Follower(const Loom& loom, Collector& findings) : loom_(loom), findings_(findings), metal_(0) {
        result_.unused.reserve(loom.wires.size());
        for (const LoomWire& wire : loom.wires) result_.unused.push_back(why_no_line(loom, wire));
        join_metal();
    }

    Followed follow(const LineChoice& choice) {
        std::vector<std::vector<std::size_t>> seeds;
        for (const std::string& name : choice.lines) seeds.push_back(seeds_of(name));
        if (findings_.errors()) return {};
        for (std::size_t line = 0; line < seeds.size(); ++line)
            result_.lines.push_back({choice.lines[line], {}, {}});
        find_passages(seeds);
        for (std::size_t line = 0; line < seeds.size(); ++line) take_largest(line, seeds[line]);
        check_apart();
        check_size();
        say_unused(choice);
        if (findings_.errors()) return {};
        say_assumed(choice);
        return std::move(result_);
    }

  private:
    bool usable(std::size_t wire) const { return result_.unused[wire].empty(); }

    std::size_t node(std::size_t part, const std::string& contact) {
        return nodes_.emplace(std::pair(part, contact), nodes_.size()).first->second;
    }

    void join_metal() {
        for (std::size_t wire = 0; wire < loom_.wires.size(); ++wire) {
            std::array<std::size_t, 2> at{};
            for (std::size_t end = 0; end < 2 && usable(wire); ++end) {
                const LoomEnd& it = loom_.wires[wire].ends[end];
                at[end] = node(it.part, contact_of(loom_, it));
            }
            ends_.push_back(at);
        }
        metal_ = harness::Islands(nodes_.size());
        for (std::size_t wire = 0; wire < loom_.wires.size(); ++wire) {
            if (usable(wire)) metal_.join(ends_[wire][0], ends_[wire][1]);
        }
        for (const auto& [contact, index] : nodes_) {
            const std::size_t mate = loom_.parts[contact.first].mate;
            if (mate == nowhere) continue;
            const auto other = nodes_.find({mate, contact.second});
            if (other != nodes_.end()) metal_.join(index, other->second);
        }
    }

    // Wires that carry the signal; where there is no such signal, the wire of that number.
    std::vector<std::size_t> seeds_of(const std::string& name) {
        std::vector<std::size_t> named;
        std::vector<std::size_t> numbered;
        std::vector<std::string> known;
        for (std::size_t wire = 0; wire < loom_.wires.size(); ++wire) {
            const LoomWire& it = loom_.wires[wire];
            if (!it.signal.empty()) known.push_back(it.signal);
            if (!name.empty() && it.signal == name && usable(wire)) named.push_back(wire);
            if (it.id == name && usable(wire)) numbered.push_back(wire);
        }
        if (!named.empty()) return named;
        if (!numbered.empty()) return numbered;
        std::sort(known.begin(), known.end());
        known.erase(std::unique(known.begin(), known.end()), known.end());
        say_unknown(name, known);
        return {};
    }

    void say_unknown(const std::string& name, const std::vector<std::string>& known) {
        for (std::size_t wire = 0; wire < loom_.wires.size(); ++wire) {
            const LoomWire& it = loom_.wires[wire];
            if (name.empty() || (it.signal != name && it.id != name) || usable(wire)) continue;
            findings_.error("unknown-signal", at_offset(it.offset),
                            {called(it) + " cannot be followed: " + result_.unused[wire],
                             "a wire between two parts", "", "mend the source, or choose another signal"});
            return;
        }
        findings_.error(
            "unknown-signal", "",
            {"no signal and no wire is named \"" + name + '"', "a signal or a wire number of this file",
             nearest_name(name, known), "without --network the signals are listed"});
    }

    // A plug with two contacts of the line, each on an island of its own: the line is taken to go through
    // inside, as a pair does in most modules of a bus. Of a pair, both lines have to.
    void find_passages(const std::vector<std::vector<std::size_t>>& seeds) {
        std::vector<std::map<std::size_t, std::vector<std::string>>> contacts(seeds.size());
        for (std::size_t line = 0; line < seeds.size(); ++line) {
            for (const std::size_t wire : seeds[line]) {
                for (const LoomEnd& end : loom_.wires[wire].ends) {
                    const LoomPart& part = loom_.parts[end.part];
                    if (part.use != PartUse::Plug || part.mate != nowhere) continue;
                    std::vector<std::string>& list = contacts[line][end.part];
                    if (list.size() < 3 && std::find(list.begin(), list.end(), end.cavity) == list.end())
                        list.push_back(end.cavity);
                }
            }
        }
        for (const auto& [part, list] : contacts[0]) {
            const auto passes = [&, which = part](const auto& of_line) {
                const auto found = of_line.find(which);
                return found != of_line.end() && found->second.size() == 2 &&
                       metal_.of(node(which, found->second[0])) != metal_.of(node(which, found->second[1]));
            };
            if (!std::all_of(contacts.begin(), contacts.end(), passes)) continue;
            for (std::size_t line = 0; line < seeds.size(); ++line) {
                const std::vector<std::string>& both = contacts[line].at(part);
                result_.lines[line].passages[part] = {both[0], both[1]};
            }
        }
    }

    // Islands joined by passages, the one with most wires; of several, the first.
    void take_largest(std::size_t line, const std::vector<std::size_t>& seeds) {
        FollowedLine& it = result_.lines[line];
        harness::Islands joined = metal_;
        for (const auto& [part, passage] : it.passages)
            joined.join(node(part, passage[0]), node(part, passage[1]));
        std::set<std::size_t> seeded;
        for (const std::size_t wire : seeds) seeded.insert(joined.of(ends_[wire][0]));
        std::map<std::size_t, std::vector<std::size_t>> wires;
        for (std::size_t wire = 0; wire < loom_.wires.size(); ++wire) {
            if (!usable(wire)) continue;
            const std::size_t at = joined.of(ends_[wire][0]);
            if (seeded.contains(at)) wires[at].push_back(wire);
        }
        const std::set<std::size_t> others =
            line == 0 ? std::set<std::size_t>{} : parts_of(result_.lines[0].wires);
        auto best = wires.begin();
        std::pair<std::size_t, std::size_t> most;
        for (auto candidate = wires.begin(); candidate != wires.end(); ++candidate) {
            const std::pair worth(shared(parts_of(candidate->second), others), candidate->second.size());
            const bool earlier = candidate->second.front() < best->second.front();
            if (worth < most || (worth == most && !earlier)) continue;
            best = candidate;
            most = worth;
        }
        it.wires = best->second;
        std::erase_if(it.passages, [&](const auto& passage) {
            return joined.of(node(passage.first, passage.second[0])) != best->first;
        });
    }

    std::set<std::size_t> parts_of(const std::vector<std::size_t>& wires) const {
        std::set<std::size_t> parts;
        for (const std::size_t wire : wires) {
            for (const LoomEnd& end : loom_.wires[wire].ends) parts.insert(end.part);
        }
        return parts;
    }

    static std::size_t shared(const std::set<std::size_t>& one, const std::set<std::size_t>& other) {
        return static_cast<std::size_t>(
            std::count_if(one.begin(), one.end(), [&](std::size_t part) { return other.contains(part); }));
    }

    void check_apart() {
        if (result_.lines.size() < 2) return;
        std::vector<std::size_t> both;
        std::set_intersection(result_.lines[0].wires.begin(), result_.lines[0].wires.end(),
                              result_.lines[1].wires.begin(), result_.lines[1].wires.end(),
                              std::back_inserter(both));
        if (both.empty()) return;
        const LoomWire& wire = loom_.wires[both.front()];
        findings_.error(
            "lines-joined", at_offset(wire.offset),
            {called(wire) + " is joined to both " + result_.lines[0].name + " and " + result_.lines[1].name,
             "two lines that no metal joins", "", "choose one of them alone, or mend the source"});
    }

    void check_size() {
        for (const FollowedLine& line : result_.lines) {
            if (line.wires.size() <= most_runs) continue;
            findings_.error("line-too-large", at_offset(loom_.wires[line.wires.front()].offset),
                            {fmt::format("{} has {} wires that metal joins", line.name, line.wires.size()),
                             fmt::format("at most {}", most_runs), "", "take the loom of one vehicle"});
        }
    }

    void say_unused(const LineChoice& choice) {
        std::vector<char> used(loom_.wires.size());
        for (const FollowedLine& line : result_.lines) {
            for (const std::size_t wire : line.wires) used[wire] = 1;
        }
        for (std::size_t wire = 0; wire < loom_.wires.size(); ++wire) {
            if (used[wire] != 0 || !usable(wire)) continue;
            const LoomWire& it = loom_.wires[wire];
            const auto is_it = [&](const std::string& name) { return name == it.signal; };
            const bool same = std::any_of(choice.lines.begin(), choice.lines.end(), is_it);
            result_.unused[wire] =
                same ? "it has that name too, and nothing joins it to the rest: choose it by its number"
                     : "no metal joins it to what was chosen";
        }
    }

    void say_assumed(const LineChoice& choice) {
        for (std::size_t line = 0; line < result_.lines.size(); ++line) {
            std::set<std::string> others;
            for (const std::size_t wire : result_.lines[line].wires) {
                const LoomWire& it = loom_.wires[wire];
                if (it.signal != choice.lines[line] && !it.signal.empty()) others.insert(it.signal);
            }
            const std::vector<std::string> names(others.begin(), others.end());
            if (!names.empty())
                result_.assumed.push_back(
                    choice.lines[line] + " goes on under other names, joined by metal: " + join_words(names));
        }
        for (const auto& [part, passage] : result_.lines.front().passages)
            result_.assumed.push_back(fmt::format("{}: what goes in at {} goes out at {} inside it",
                                                  loom_.parts[part].id, passage[0], passage[1]));
    }

    const Loom& loom_;
    Collector& findings_;
    Followed result_;
    std::map<std::pair<std::size_t, std::string>, std::size_t> nodes_;  // by part and contact
    std::vector<std::array<std::size_t, 2>> ends_;                      // nodes, by wire
    harness::Islands metal_;
};

}  // namespace

std::string called(const LoomWire& wire) {
    return "wire " + wire.id +
           (wire.signal.empty() || wire.signal == wire.id ? std::string() : " (" + wire.signal + ')');
}

std::string contact_of(const Loom& loom, const LoomEnd& end) {
    const PartUse use = loom.parts[end.part].use;
    return use == PartUse::Plug || use == PartUse::Open ? end.cavity : std::string();
}

LineChoice read_choice(const Loom& loom, std::string_view choice) {
    const auto is_name = [&](std::string_view text) {
        return std::any_of(loom.wires.begin(), loom.wires.end(),
                           [&](const LoomWire& wire) { return wire.signal == text || wire.id == text; });
    };
    LineChoice result;
    const std::size_t equals = choice.find('=');
    if (!is_name(choice) && equals != std::string_view::npos) {
        result.network = std::string(choice.substr(0, equals));
        choice = choice.substr(equals + 1);
    }
    const std::size_t comma = choice.find(',');
    if (is_name(choice) || comma == std::string_view::npos) {
        result.lines = {std::string(choice)};
    } else {
        result.lines = {std::string(choice.substr(0, comma)), std::string(choice.substr(comma + 1))};
    }
    return result;
}

Followed follow(const Loom& loom, const LineChoice& choice, Collector& findings) {
    return Follower(loom, findings).follow(choice);
}

}  // namespace halfsplit::draft
