// Pairs whose two lines change colours with one another where they go through something: most often the two
// cavities of one side are exchanged, on the drawing or in the file.
#include "harness/reading.hpp"

#include <array>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace halfsplit::harness {

namespace {

// The colours of a pair on one side, and where it is written.
struct Side {
    std::array<Colour, 2> colour;  // by Line
    std::string words;             // which side
    std::string pointer;           // of the wire's end
};

class Colours {
  public:
    explicit Colours(Reading& reading) : reading_(reading), harness_(reading.harness) {
        wires_.resize(harness_.terminals.size());
        for (Index run = 0; run < harness_.parts.size(); ++run) {
            for (const Line line : both_lines) {
                const auto& strand = harness_.parts[run].strand[static_cast<std::size_t>(line)];
                if (!strand) continue;
                wires_[strand->from] = {run, line};
                wires_[strand->to] = {run, line};
            }
        }
    }

    void check() {
        for (const Part& part : harness_.parts) {
            if (part.kind == PartKind::Run) check_far_ends(part);
            for (const Attachment& attachment : part.attachments) {
                if (attachment.loop)
                    compare(side(attachment.in, "where it goes in"),
                            side(attachment.out, "where it goes out"), part);
            }
        }
    }

  private:
    using Ends = std::array<Index, 2>;

    // Both ends of a run: what mates with them, and who else is at the splice.
    void check_far_ends(const Part& run) {
        if (!run.strand[0] || !run.strand[1]) return;
        check_end(run, {run.strand[0]->from, run.strand[1]->from});
        check_end(run, {run.strand[0]->to, run.strand[1]->to});
    }

    void check_end(const Part& run, const Ends& ends) {
        const Terminal& here = harness_.terminals[ends[0]];
        const Part& part = harness_.parts[here.part];
        if (part.kind == PartKind::Splice) {
            check_splice_end(run, part, here.part, ends[0]);
        } else if (here.half == 'b') {
            const Port mate{{reading_.mates[ends[0]], reading_.mates[ends[1]]}};
            compare(side(mate, "on half a"), side(Port{ends}, "on half b"), part);
        }
    }

    // Against the run that the file names first there.
    void check_splice_end(const Part& run, const Part& splice, Index index, Index terminal) {
        Side own{{run.strand[0]->colour, run.strand[1]->colour},
                 "on " + run.id,
                 run.pointer + (run.strand[0]->from == terminal ? "/h/from" : "/h/to")};
        const auto [first, fresh] = first_at_splice_.emplace(index, own);
        if (!fresh) compare(first->second, own, splice);
    }

    // Empty where either line has no wire, or no colour.
    std::optional<Side> side(const Port& port, const char* words) const {
        Side result;
        for (std::size_t line = 0; line < 2; ++line) {
            const Index terminal = port.terminal[line];
            if (terminal == none || wires_[terminal].run == none) return std::nullopt;
            const WireEnd& wire = wires_[terminal];
            result.colour[line] =
                harness_.parts[wire.run].strand[static_cast<std::size_t>(wire.line)]->colour;
        }
        result.words = words;
        result.pointer = reading_.terminals.use(port.terminal[0]).wired_at;
        return result;
    }

    void compare(const std::optional<Side>& one, const std::optional<Side>& two, const Part& part) {
        if (one && two) compare(*one, *two, part);
    }

    void compare(const Side& one, const Side& two, const Part& part) {
        const auto& [high, low] = one.colour;
        if (high.base.empty() || low.base.empty() || high == low) return;
        if (two.colour[0] != low || two.colour[1] != high) return;
        reading_.findings.warning(
            "colours-swapped", two.pointer,
            {"H and L exchange their colours at " + part.id + ": H is " + in_words(high) + ' ' + one.words +
                 " and " + in_words(low) + ' ' + two.words,
             "each line in a colour of its own on both sides", "",
             "look which cavity each wire is in: one side may have them the wrong way round", one.pointer});
    }

    Reading& reading_;
    const Harness& harness_;
    std::vector<WireEnd> wires_;  // by terminal; at a splice the last
    std::unordered_map<Index, Side> first_at_splice_;
};

}  // namespace

void check_colours(Reading& reading) {
    Colours(reading).check();
}

}  // namespace halfsplit::harness
