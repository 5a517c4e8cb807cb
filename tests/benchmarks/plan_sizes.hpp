// What a proof takes as chains grow: processor time, expansions, memory.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace halfsplit::plan {

struct Spread {
    double mean = 0, most = 0;
};

struct Measured {
    std::size_t points = 0, places = 0, covers = 0;
    std::size_t instances = 0, hypotheses = 0;  // the most of them
    std::size_t proven = 0, within_aim = 0;     // of the instances; within: proven in the time aimed at
    double aim_milliseconds = 0;                // 0: none
    Spread milliseconds, expansions, megabytes;
    // The same with the limits of advice. Excess: of their plan over the least minutes, of the instances
    // where those are known. Gap: over its own lower bound, which is what a user is told.
    std::size_t advised_proven = 0;
    Spread advised_milliseconds, advised_excess, advised_gap;
    Spread one_step_milliseconds;  // looking one step ahead, as advice does
};

// By rising size; two lines have bad joints and a whole-bus test.
std::vector<Measured> measure_sizes(bool two_lines);

// Markdown.
std::string table_of_proofs(const std::vector<Measured>& one_line, const std::vector<Measured>& two_lines);
std::string table_of_advice(const std::vector<Measured>& one_line, const std::vector<Measured>& two_lines);
// SVG.
std::string plot_of_sizes(const std::vector<Measured>& one_line, const std::vector<Measured>& two_lines);

}  // namespace halfsplit::plan
