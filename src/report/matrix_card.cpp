// The plan of a matrix as an indented tree.
#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"
#include "halfsplit/report/matrix_report.hpp"

#include <fmt/format.h>

#include "report/matrix_words.hpp"
#include "report/page.hpp"

#include <algorithm>
#include <numeric>

namespace halfsplit::report {

namespace {

constexpr double least_chance = 0.01;

class Card {
  public:
    Card(const matrix::Matrix& matrix, const plan::Policy& policy, std::size_t columns)
        : matrix_(matrix),
          policy_(policy),
          page_(columns),
          widest_indent_(std::max<std::size_t>(columns, 30) / 2) {}

    std::string write() {
        const plan::Solution& solution = policy_.solution;
        page_.paragraph(fmt::format(
            "PLAN: expected {}, worst {}{}", plain_minutes(solution.best.expected_minutes),
            plain_minutes(solution.best.worst_minutes), solution.proven ? "" : ", not proven least"));
        std::vector<Line> open{{0, 0, policy_.steps.empty() ? nothing_to_do() : "", policy_.steps.empty()}};
        while (!open.empty()) {
            const Line line = std::move(open.back());
            open.pop_back();
            const std::vector<Line> below = tell(line);
            open.insert(open.end(), below.rbegin(), below.rend());
        }
        return page_.text();
    }

  private:
    // A step to be told after the outcome that leads to it; or, without a step, words alone.
    struct Line {
        std::size_t step = 0, depth = 0;
        std::string outcome;
        bool words_alone = false;
    };

    // Writes the line; gives back what belongs below it.
    std::vector<Line> tell(const Line& line) {
        if (line.words_alone) {
            write_at(line.depth, line.outcome);
            return {};
        }
        const plan::PolicyStep& step = policy_.steps[line.step];
        if (step.step == plan::Step::Test) {
            write_at(line.depth, line.outcome + fmt::format("test {}, {}", matrix_.tests[step.index],
                                                            plain_minutes(step.minutes)));
            return below_test(step, line.depth + 1);
        }
        return below_looks(line);
    }

    std::vector<Line> below_test(const plan::PolicyStep& step, std::size_t depth) const {
        std::vector<plan::PolicyStep::Branch> likeliest = step.branches;
        std::stable_sort(likeliest.begin(), likeliest.end(),
                         [](const auto& a, const auto& b) { return a.chance > b.chance; });
        std::vector<Line> below;
        std::size_t folded = 0, suspects = 0;
        double chance = 0;
        for (const plan::PolicyStep::Branch& branch : likeliest) {
            if (branch.chance <= 0) continue;
            const std::vector<std::size_t> left = showing(step, branch.outcome);
            if (branch.chance < least_chance) {
                ++folded;
                suspects += left.size();
                chance += branch.chance;
                continue;
            }
            const std::string& shown = matrix_.outcomes[step.index][static_cast<std::size_t>(branch.outcome)];
            std::string words = fmt::format("{} ({}): ", shown, format_chance(std::min(branch.chance, 1.0)));
            const bool over = branch.next == plan::Policy::over;
            if (over) words += found(left);
            below.push_back({branch.next, depth, words, over});
        }
        if (folded > 0)
            below.push_back({0, depth,
                             fmt::format("{} folded ({}): {} left", counted(folded, "rare outcome"),
                                         format_chance(chance), hypotheses(suspects)),
                             true});
        return below;
    }

    // Looks that follow on each other are one line, up to the next test.
    std::vector<Line> below_looks(const Line& line) {
        constexpr std::size_t most_looks = 20;
        std::vector<std::string> words;
        std::size_t looks = 0, at = line.step;
        double otherwise = 0;
        while (at != plan::Policy::over && policy_.steps[at].step == plan::Step::LayBare) {
            const plan::PolicyStep& step = policy_.steps[at];
            if (++looks <= most_looks)
                words.push_back(fmt::format("{} ({})", step.index, plain_minutes(step.minutes)));
            const bool goes_on = step.branches.size() > 1;
            otherwise = goes_on ? step.branches.back().chance : 0;
            at = goes_on ? step.branches.back().next : plan::Policy::over;
        }
        std::string text = line.outcome + "lay bare " + join(words, ", then ");
        if (looks > most_looks) text += fmt::format(" and {} more", looks - most_looks);
        write_at(line.depth, text);
        if (at == plan::Policy::over) return {};
        const std::string sound = fmt::format("{} ({}): ", looks == 1 ? "it is sound" : "all are sound",
                                              format_chance(std::min(otherwise, 1.0)));
        if (otherwise < least_chance)
            return {{0, line.depth + 1,
                     sound + hypotheses(likely(policy_.steps[at].suspects).size()) + " left", true}};
        return {{at, line.depth + 1, sound}};
    }

    // Where the screen is too narrow to show how deep, a number does.
    void write_at(std::size_t depth, const std::string& words) {
        const std::size_t room = 2 * depth;
        if (room <= widest_indent_) return page_.paragraph(words, room);
        page_.paragraph(fmt::format("[{} deep] {}", depth, words), widest_indent_);
    }

    static std::string hypotheses(std::size_t count) {
        return count == 1 ? "1 hypothesis" : fmt::format("{} hypotheses", count);
    }

    static std::string found(const std::vector<std::size_t>& left) {
        return (left.size() == 1 ? "it is " : "it is one of ") + number_list(left);
    }

    std::vector<std::size_t> showing(const plan::PolicyStep& step, int outcome) const {
        std::vector<std::size_t> left;
        for (const std::size_t h : likely(step.suspects))
            if (matrix_.problem.tests[step.index].outcome[h] == outcome) left.push_back(h);
        return left;
    }

    // Without those that were never suspected.
    std::vector<std::size_t> likely(const std::vector<std::size_t>& suspects) const {
        std::vector<std::size_t> result;
        for (const std::size_t h : suspects)
            if (matrix_.problem.hypotheses[h].probability > 0) result.push_back(h);
        return result;
    }

    // What is left where nothing can be done at all.
    std::string nothing_to_do() const {
        std::vector<std::size_t> all(matrix_.problem.hypotheses.size());
        std::iota(all.begin(), all.end(), std::size_t{0});
        return found(likely(all));
    }

    const matrix::Matrix& matrix_;
    const plan::Policy& policy_;
    Page page_;
    std::size_t widest_indent_;
};

}  // namespace

std::string matrix_card(const matrix::Matrix& matrix, const matrix::Survey& survey, std::size_t columns) {
    return Card(matrix, survey.policy, columns).write();
}

}  // namespace halfsplit::report
