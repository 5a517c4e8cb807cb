// What stays the same of a problem while the belief changes: its distinct hypotheses, how they fall into
// families, and the shortest ways between places.
#pragma once

#include "halfsplit/plan/problem.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace halfsplit::plan {

// Hypotheses with the same element and the same outcome in every test are one kind: no plan can treat them
// apart. One that goes on to another, or that another goes on to, is a kind by itself.
struct Kind {
    std::size_t element = 0;  // of the outline (dense)
    std::size_t family = 0;
    std::size_t hypothesis = 0;  // one of its hypotheses, for its outcomes
    std::size_t then = cured;    // the kind it goes on to
};

// A family holds each element at most once, so inside it every hypothesis has to be told from every other,
// one by one; that is what the bounds build on. (Opens of line H are one family, those of line L another.)
// Any such partition is right; hypotheses are put with those whose outcomes are most like their own because
// that bounds best.
struct Outline {
    explicit Outline(const Problem& posed);

    const Problem& problem;
    std::vector<Kind> kinds;
    std::vector<std::size_t> kind_of;   // by hypothesis of the problem
    std::vector<std::size_t> elements;  // by element of the outline: its number in the problem
    std::size_t families = 0;
    std::vector<double> shortest;  // places x places: the travel table with detours allowed

    // By kind, from a probability for each hypothesis.
    std::vector<double> by_kind(const std::vector<double>& probability) const;
    // The problem's own probabilities by kind, summing to 1.
    std::vector<double> prior() const;
};

}  // namespace halfsplit::plan
