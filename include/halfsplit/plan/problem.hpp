// The abstract problem of finding what is wrong in the least expected minutes. It knows no harness:
// hypotheses with a probability and an element to lay bare, tests with a site and an outcome for each
// hypothesis, the workshop.
#pragma once

#include "halfsplit/access/workshop.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace halfsplit::plan {

// Outcomes of a test are numbers from 0 up to (not including) this.
inline constexpr int most_outcomes = 256;
using Outcomes = std::vector<std::uint8_t>;

// Nothing is wrong any more once the element was found and mended.
inline constexpr std::size_t cured = static_cast<std::size_t>(-1);

struct Hypothesis {
    double probability = 0;   // need not sum to 1 over the problem; zero is allowed
    std::size_t element = 0;  // what has to be laid bare when it is true
    // Of two faults: the hypothesis that is true once that element was found and mended, and the hunt goes
    // on, from where it was found and with the covers off that are. One of the two has no probability of its
    // own, no other goes on to it, and it goes on to none. Mending and its proof take no minutes of the hunt,
    // for two faults as for one. A look at the second element before the first was found is taken to show
    // nothing.
    std::size_t then = cured;
};

struct Test {
    access::Site site;
    Outcomes outcome;  // by hypothesis: what a truthful reading shows
    // Chance that the reading shows `slip_outcome` whatever is true (a bad contact reads open); 0 for a
    // truthful test.
    double slip = 0;
    int slip_outcome = 0;
};

struct Problem {
    access::Workshop workshop;
    access::Standing start;
    std::vector<Hypothesis> hypotheses;
    std::vector<Test> tests;  // one that tells nothing is allowed; no plan uses it
    // By element: where it is laid bare and the minutes of looking. Empty: the hunt ends when the fault is
    // isolated as far as the tests can (looking costs nothing, and is not a way to find out), and no
    // hypothesis goes on to another.
    std::vector<access::Site> bare;
};

// What the hypothesis goes on to: where nothing is laid bare, to none.
inline std::size_t goes_on_to(const Problem& problem, std::size_t hypothesis) {
    return problem.bare.empty() ? cured : problem.hypotheses[hypothesis].then;
}
// By hypothesis: does another go on to it?
std::vector<bool> follows_another(const Problem& problem);

// Throws std::invalid_argument naming the first member that breaks a rule: sizes that disagree, probabilities
// that are negative, not finite or sum to nothing (or to no finite number), slips outside 0 to 1, outcomes
// out of range, minutes that are negative or not finite, elements, places or covers that are not there, a
// hypothesis that cannot go on as it says.
// Linear in the size of the problem.
void require_sound(const Problem& problem);

}  // namespace halfsplit::plan
