#include "draft/csv_halves.hpp"

#include "halfsplit/base/text.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

namespace halfsplit::draft {

namespace {

bool begins_with_any(const std::string& id, const std::vector<std::string>& beginnings) {
    return std::any_of(beginnings.begin(), beginnings.end(), [&](const std::string& beginning) {
        return !beginning.empty() && id.rfind(beginning, 0) == 0;
    });
}

// How the two halves of a connector are told apart at the end of their ids.
struct HalfMark {
    std::string_view one, other;
};
constexpr std::array<HalfMark, 10> half_marks{{{".a", ".b"},
                                               {".A", ".B"},
                                               {"-M", "-F"},
                                               {"-m", "-f"},
                                               {".M", ".F"},
                                               {"_M", "_F"},
                                               {"-P", "-J"},
                                               {".P", ".J"},
                                               {"_P", "_J"},
                                               {"P", "J"}}};

// The id of the connector, where the id could be that of its first half.
std::optional<std::string> stem_of(const std::string& id, const HalfMark& mark) {
    if (id.size() <= mark.one.size() || !id.ends_with(mark.one)) return std::nullopt;
    std::string stem = id.substr(0, id.size() - mark.one.size());
    const bool bare = mark.one.size() == 1;
    if (bare && (stem.back() < '0' || stem.back() > '9')) return std::nullopt;
    return stem;
}

// Ends at each part: wire and which end of it.
using Ends = std::vector<std::vector<std::pair<std::size_t, std::size_t>>>;

class Settler {
  public:
    Settler(Loom& loom, const ColumnOptions& options)
        : loom_(loom), options_(options), ends_(loom.parts.size()) {
        for (std::size_t wire = 0; wire < loom.wires.size(); ++wire) {
            for (std::size_t end = 0; end < 2; ++end) {
                const std::size_t part = loom.wires[wire].ends[end].part;
                if (part != nowhere) ends_[part].emplace_back(wire, end);
            }
        }
    }

    void settle() {
        const std::size_t parts = loom_.parts.size();
        for (std::size_t part = 0; part < parts; ++part) settle_use(part);
        mate_marked_halves();
        for (std::size_t part = 0; part < parts; ++part) split_in_halves(part);
        for (std::size_t part = 0; part < parts; ++part) settle_cavities(part);
    }

  private:
    LoomEnd& end_of(const std::pair<std::size_t, std::size_t>& end) {
        return loom_.wires[end.first].ends[end.second];
    }

    void settle_use(std::size_t part) {
        LoomPart& it = loom_.parts[part];
        const bool no_cavity = std::all_of(ends_[part].begin(), ends_[part].end(),
                                           [&](const auto& end) { return end_of(end).cavity.empty(); });
        if (begins_with_any(it.id, options_.splices)) {
            it.use = PartUse::Splice;
        } else if (begins_with_any(it.id, options_.eyelets)) {
            it.use = PartUse::Eyelet;
        } else if (no_cavity && ends_[part].size() > 1) {
            it.use = PartUse::Splice;
            it.assumed = it.id + ": a splice, as several wires end there and no cavity is named";
        }
    }

    std::set<std::string> cavities(std::size_t part) {
        std::set<std::string> all;
        for (const auto& end : ends_[part]) all.insert(end_of(end).cavity);
        return all;
    }

    bool share_cavity(std::size_t one, std::size_t other) {
        const std::set<std::string> of_one = cavities(one);
        const std::set<std::string> of_other = cavities(other);
        return std::any_of(of_one.begin(), of_one.end(),
                           [&](const std::string& cavity) { return of_other.contains(cavity); });
    }

    void mate_marked_halves() {
        std::map<std::string, std::size_t> by_id;
        for (std::size_t part = 0; part < loom_.parts.size(); ++part)
            by_id.emplace(loom_.parts[part].id, part);
        for (const HalfMark& mark : half_marks) {
            for (std::size_t part = 0; part < loom_.parts.size(); ++part) {
                const auto stem = stem_of(loom_.parts[part].id, mark);
                const auto other = stem ? by_id.find(*stem + std::string(mark.other)) : by_id.end();
                if (other != by_id.end()) mate(part, other->second, *stem);
            }
        }
    }

    void mate(std::size_t one, std::size_t other, const std::string& stem) {
        LoomPart& a = loom_.parts[one];
        LoomPart& b = loom_.parts[other];
        const bool plugs = a.use == PartUse::Plug && b.use == PartUse::Plug;
        if (!plugs || a.mate != nowhere || b.mate != nowhere || !share_cavity(one, other)) return;
        a.mate = other;
        b.mate = one;
        a.half = 'a';
        b.half = 'b';
        a.connector = b.connector = stem;
        a.assumed = a.id + " and " + b.id + ": the two halves of connector " + stem;
    }

    // A connector that the list names alike on both sides: what ends there is on half a, what begins there on
    // half b.
    void split_in_halves(std::size_t part) {
        if (loom_.parts[part].use != PartUse::Plug || loom_.parts[part].mate != nowhere ||
            !begins_with_any(loom_.parts[part].id, options_.connectors))
            return;
        std::map<std::string, std::array<std::size_t, 2>> count;
        for (const auto& end : ends_[part]) ++count[end_of(end).cavity][end.second];
        const bool passes = std::any_of(count.begin(), count.end(),
                                        [](const auto& of) { return of.second[0] > 0 && of.second[1] > 0; });
        const bool clear = std::all_of(count.begin(), count.end(),
                                       [](const auto& of) { return of.second[0] <= 1 && of.second[1] <= 1; });
        if (!passes || !clear) return;
        LoomPart half = loom_.parts[part];
        half.half = 'b';
        half.mate = part;
        half.connector = half.id;
        const std::size_t other = loom_.parts.size();
        loom_.parts[part].half = 'a';
        loom_.parts[part].mate = other;
        loom_.parts[part].connector = half.id;
        loom_.parts[part].assumed =
            half.id + ": a connector; wires listed to it are on half a, those from it on half b";
        loom_.parts.push_back(std::move(half));
        for (const auto& end : ends_[part]) {
            if (end.second == 0) end_of(end).part = other;
        }
    }

    void settle_cavities(std::size_t part) {
        LoomPart& it = loom_.parts[part];
        if (it.use != PartUse::Plug) return;
        for (const auto& end : ends_[part]) {
            if (!end_of(end).cavity.empty()) continue;
            if (ends_[part].size() == 1) {
                end_of(end).cavity = "1";
                it.assumed = it.id + ": cavity 1, as the list names none";
            } else {
                std::string& why = loom_.wires[end.first].unusable;
                if (why.empty()) why = "the list names no cavity at " + it.id;
            }
        }
    }

    Loom& loom_;
    const ColumnOptions& options_;
    Ends ends_;
};

}  // namespace

void settle_parts(Loom& loom, const ColumnOptions& options) {
    Settler(loom, options).settle();
}

}  // namespace halfsplit::draft
