// Whether each network hangs together on this vehicle, once options are struck and bridge plugs are in.
#include "halfsplit/base/text.hpp"
#include "halfsplit/harness/vehicle.hpp"

#include "harness/links.hpp"
#include "harness/reading.hpp"

#include <map>
#include <set>
#include <utility>

namespace halfsplit::harness {

namespace {

class Wholeness {
  public:
    explicit Wholeness(Reading& reading)
        : reading_(reading),
          harness_(reading.harness),
          present_(presence(reading.harness)),
          islands_(reading.harness.terminals.size()) {
        for (const Link& link : make_links(harness_, present_)) islands_.join(link.from, link.to);
    }

    void check() {
        find_inhabited();
        for_each_attachment([this](Index part, std::size_t which) { check_pass_through(part, which); });
        for_each_attachment([this](Index part, std::size_t which) { check_reachable(part, which); });
        check_leftovers();
    }

  private:
    template <typename Do>
    void for_each_attachment(Do act) {
        for (Index part = 0; part < harness_.parts.size(); ++part) {
            if (harness_.parts[part].kind != PartKind::Module) continue;
            for (std::size_t which = 0; which < harness_.parts[part].attachments.size(); ++which)
                act(part, which);
        }
    }

    // The islands on which something lives that has to be heard: a module, a terminator, the socket.
    void find_inhabited() {
        for (Index index = 0; index < harness_.parts.size(); ++index) {
            if (present_[index] == Fitted::No) continue;
            const Part& part = harness_.parts[index];
            for (const Attachment& attachment : part.attachments) inhabit(attachment.in);
            if (part.kind == PartKind::Terminator) inhabit(part.in);
        }
    }

    void inhabit(const Port& port) {
        for (const Index terminal : port.terminal) {
            if (terminal != none) inhabited_.insert(islands_.of(terminal));
        }
    }

    void check_pass_through(Index index, std::size_t which) {
        const Part& part = harness_.parts[index];
        const Attachment& attachment = part.attachments[which];
        if (present_[index] != Fitted::No || !attachment.loop) return;
        bool parted = false;
        for (std::size_t line = 0; line < 2; ++line) {
            const Index in = attachment.in.terminal[line];
            const Index out = attachment.out.terminal[line];
            if (in == none || out == none) continue;
            if (islands_.together(in, out)) continue;
            parted =
                parted || (inhabited_.contains(islands_.of(in)) && inhabited_.contains(islands_.of(out)));
        }
        if (!parted) return;
        for (std::size_t line = 0; line < 2; ++line) {  // told here; not once more for everything behind it
            if (attachment.in.terminal[line] == none) continue;
            islands_.join(attachment.in.terminal[line], attachment.out.terminal[line]);
        }
        reading_.findings.error("pass-through-missing", bus_pointer(index, which),
                                {part.id + " is not fitted, and nothing passes " +
                                     harness_.networks[attachment.network].id + " on in its place",
                                 "a bridge plug that stands in for it", "",
                                 "add the bridge plug, or say that " + part.id + " is fitted"});
    }

    static std::string bus_pointer_of(const Part& part, std::size_t which) {
        return part.pointer + "/buses/" + std::to_string(which);
    }
    std::string bus_pointer(Index index, std::size_t which) const {
        return bus_pointer_of(harness_.parts[index], which);
    }

    std::string by_which(const std::vector<std::string>& lines, Index network) const {
        const Network& it = harness_.networks[network];
        return it.single_line ? it.id : join(lines, " or ") + " of " + it.id;
    }

    void check_reachable(Index index, std::size_t which) {
        const Part& part = harness_.parts[index];
        const Attachment& attachment = part.attachments[which];
        const Index clip = harness_.networks[attachment.network].clip;
        if (present_[index] == Fitted::No || clip == none) return;
        std::vector<std::string> missing;
        for (std::size_t line = 0; line < 2; ++line) {
            if (attachment.in.terminal[line] == none) continue;
            const bool reached =
                islands_.together(attachment.in.terminal[line], harness_.points[clip].terminal[line]);
            if (!reached) missing.emplace_back(line == 0 ? "line H" : "line L");
        }
        if (missing.empty()) return;
        for (const Index terminal : attachment.in.terminal) {
            if (terminal != none) told_.insert(islands_.of(terminal));
        }
        reading_.findings.error("unreachable-module", bus_pointer(index, which),
                                {part.id + " is not connected to " + point_name(harness_, clip) + " by " +
                                     by_which(missing, attachment.network),
                                 "a way along runs, splices, connectors and modules that are fitted", "",
                                 "add the run that is missing, or correct the one that goes elsewhere"});
    }

    // Whatever else hangs together by itself: one warning an island.
    void check_leftovers() {
        for (const Network& network : harness_.networks) {
            if (network.clip == none) continue;
            for (const Index terminal : harness_.points[network.clip].terminal) {
                if (terminal != none) told_.insert(islands_.of(terminal));
            }
        }
        for (Index index = 0; index < harness_.parts.size(); ++index) {
            if (present_[index] == Fitted::No) continue;
            const Part& part = harness_.parts[index];
            Port port = part.kind == PartKind::Run ? Port{} : part.in;
            for (std::size_t line = 0; line < 2; ++line) {
                if (part.strand[line]) port.terminal[line] = part.strand[line]->from;
            }
            check_leftover(part, port);
        }
    }

    void check_leftover(const Part& part, const Port& port) {
        bool fresh = false;
        for (const Index terminal : port.terminal) {
            if (terminal != none) fresh = told_.insert(islands_.of(terminal)).second || fresh;
        }
        if (!fresh || part.network == none || harness_.networks[part.network].clip == none) return;
        reading_.findings.warning("unreachable-part", part.pointer,
                                  {part.id + " and what hangs on it are not connected to the rest of " +
                                       harness_.networks[part.network].id,
                                   "one whole network on this vehicle", "",
                                   "say by which option it is fitted, or add what is missing"});
    }

    Reading& reading_;
    const Harness& harness_;
    std::vector<Fitted> present_;
    Islands islands_;
    std::set<Index> inhabited_;
    std::set<Index> told_;  // islands
};

}  // namespace

void check_wholeness(Reading& reading) {
    if (!reading.wiring_sound) return;
    Wholeness(reading).check();
}

}  // namespace halfsplit::harness
