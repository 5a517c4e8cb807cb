// Which steps of a card stand on the sheet: those with which most hunts end on it.
#include "halfsplit/report/card_report.hpp"

#include "report/card_lines.hpp"
#include "report/card_sheet.hpp"

#include <algorithm>
#include <set>
#include <vector>

namespace halfsplit::report {

using advice::CardOutcome;
using advice::CardStep;

namespace {

// Steps hang together as a tree, each before those it leads to: what share of hunts can end in the steps from
// one on, on so many lines, and how those are shared out among what it leads to.
class Choosing {
  public:
    Choosing(const advice::Card& card, std::size_t width, std::size_t most_lines)
        : card_(card), most_(most_lines), best_(card.steps.size()), taken_(card.steps.size()) {
        const std::vector<std::string> cautions = cautions_of(card);
        for (const CardStep& step : card.steps) lines_.push_back(step_lines(step, cautions, width).size());
        for (std::size_t i = card.steps.size(); i-- > 0;) value(i);
    }

    // On at most so many lines.
    std::vector<char> kept(std::size_t lines) const {
        std::vector<char> result(card_.steps.size(), 0);
        if (!card_.steps.empty()) take(0, std::min(lines, most_), result);
        return result;
    }

  private:
    // By lines, of the step and those it leads to. 0 where the step alone takes more.
    using Shares = std::vector<double>;

    void value(std::size_t step) {
        Shares shares(most_ + 1, 0);
        const std::size_t own = lines_[step];
        for (std::size_t lines = own; lines <= most_; ++lines) shares[lines] = ended(card_.steps[step]);
        for (const std::size_t below : led_to(card_.steps[step])) {
            const Shares& more = best_[below];
            std::vector<std::size_t> given(most_ + 1, 0);
            Shares with = shares;
            for (std::size_t lines = own; lines <= most_; ++lines) {
                for (std::size_t some = 1; some + own <= lines; ++some) {
                    const double share = shares[lines - some] + more[some];
                    if (share <= with[lines] + 1e-12) continue;
                    with[lines] = share;
                    given[lines] = some;
                }
            }
            shares = std::move(with);
            taken_[step].push_back({below, std::move(given)});
        }
        best_[step] = std::move(shares);
    }

    void take(std::size_t step, std::size_t lines, std::vector<char>& result) const {
        if (best_[step][lines] <= 0) return;
        result[step] = 1;
        for (auto below = taken_[step].rbegin(); below != taken_[step].rend(); ++below) {
            const std::size_t given = below->given[lines];
            if (given == 0) continue;
            take(below->step, given, result);
            lines -= given;
        }
    }

    // Each once; from 0.
    static std::set<std::size_t> led_to(const CardStep& step) {
        std::set<std::size_t> result;
        for (const CardOutcome& outcome : step.outcomes)
            if (outcome.goes_to > 0) result.insert(outcome.goes_to - 1);
        return result;
    }

    static double ended(const CardStep& step) {
        double share = 0;
        for (const CardOutcome& outcome : step.outcomes)
            if (outcome.goes_to == 0) share += outcome.chance;
        return share;
    }

    struct Below {
        std::size_t step = 0;
        std::vector<std::size_t> given;  // by lines of the step and all so far
    };

    const advice::Card& card_;
    std::size_t most_;
    std::vector<std::size_t> lines_;  // by step
    std::vector<Shares> best_;
    std::vector<std::vector<Below>> taken_;
};

}  // namespace

// What is kept decides on the lines before and after the steps, and the columns need not come out even: so
// many lines as there are at most are tried first, then ever less.
advice::Card fitted(const advice::Card& card, const std::string& subject, Paper paper) {
    const SheetSize size = size_of(paper);
    const std::size_t most = 2 * size.lines;
    const Choosing choosing(card, size.column_width, most);
    for (std::size_t lines = most; lines > 0; --lines) {
        advice::Card less = folded(card, choosing.kept(lines));
        if (sheet_lines(less, subject, paper) <= size.lines) return less;
    }
    return folded(card, std::vector<char>(card.steps.size(), 0));
}

}  // namespace halfsplit::report
