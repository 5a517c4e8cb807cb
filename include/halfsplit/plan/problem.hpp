// The abstract problem of finding one fault in the least expected minutes. It knows no harness: hypotheses with a
// probability and an element to lay bare, tests with a site and an outcome for each hypothesis, the workshop.
#pragma once

#include "halfsplit/access/workshop.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::plan {

struct Hypothesis {
    double probability = 0;   // need not sum to 1 over the problem; zero is allowed
    std::size_t element = 0;  // what has to be laid bare when it is true
};

struct Test {
    access::Site site;
    std::vector<int> outcome;  // by hypothesis: what a truthful reading shows; small numbers from 0
    // Chance that the reading shows `slip_outcome` whatever is true (a bad contact reads open); 0 for a truthful test.
    double slip = 0;
    int slip_outcome = 0;
};

struct Problem {
    access::Workshop workshop;
    access::Standing start;
    std::vector<Hypothesis> hypotheses;
    std::vector<Test> tests;
    // By element: where it is laid bare and the minutes of looking. Empty: the hunt ends when the fault is isolated
    // as far as the tests can (looking costs nothing).
    std::vector<access::Site> bare;
};

// Throws std::invalid_argument naming the first member that breaks a rule: sizes that disagree, probabilities that are
// negative, not finite or sum to nothing, minutes that are negative or not finite, places that are not there.
void require_sound(const Problem& problem);

}  // namespace halfsplit::plan
