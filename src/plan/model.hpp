// A problem under one belief, in the shape the search wants: suspects numbered so that a family is a range of
// bits, by rising weight inside it; outcomes as bit masks; needs closed; tests that tell nothing left out.
#pragma once

#include "plan/index_table.hpp"
#include "plan/outline.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace halfsplit::plan {

using Word = std::uint64_t;
inline constexpr std::size_t word_bits = 64;

struct Suspect {
    double weight = 0;
    std::uint32_t element = 0;  // of the outline
    std::uint32_t family = 0;
    std::uint32_t then = IndexTable::none;  // the suspect it goes on to
};

// Test sites and elements with the same place and the same covers share a pocket.
struct Pocket {
    std::size_t place = 0;
    access::CoverSet need = 0;
};

struct PlannedTest {
    access::Site site;  // need closed
    std::uint32_t pocket = 0;
    std::uint32_t outcomes = 0;  // how many different ones the suspects show
    std::size_t first_mask = 0;  // of `masks`, in words; one mask of `words` words an outcome
    std::size_t index = 0;       // of the problem
};

struct BareSite {
    access::Site site;  // need closed
    std::uint32_t pocket = 0;
    std::size_t index = 0;  // of the problem
};

struct Model {
    // Kinds with weight zero are left out, but for what others go on to: as likely as those. At least one
    // weight must be above zero.
    Model(const Outline& outline, const std::vector<double>& weight_of_kind);

    const access::Workshop& workshop;
    const std::vector<double>& shortest;
    bool isolating = false;  // nothing is laid bare
    std::size_t words = 0;   // of a suspect set
    std::vector<Suspect> suspects;
    std::vector<std::uint32_t>
        family_first;  // first suspect of each family that is there, then the number of suspects
    std::vector<std::uint32_t> family_outcomes;  // most outcomes that one test shows within the family
    std::vector<std::size_t> kind;               // by suspect
    std::vector<Word> at_first;                  // mask of those that may be true before anything was mended
    bool goes_on = false;                        // some suspect goes on to another
    std::vector<Word> family_masks;              // of `words` words each
    std::vector<PlannedTest> tests;
    std::vector<Word> masks;
    std::vector<BareSite> bare;  // by element of the outline; empty when isolating
    std::vector<Pocket> pockets;
    std::vector<Word> travel_differs;  // places x places: places to which the two are not equally far
    double step_minutes = 0;  // what a test or a needless look costs at least, as the bounds count it

    std::span<const Word> mask(const PlannedTest& test, std::size_t outcome) const {
        return {masks.data() + test.first_mask + outcome * words, words};
    }
    // The mask of who shows the same as this suspect. As many steps as there are outcomes.
    const Word* alike(const PlannedTest& test, std::size_t suspect) const {
        const Word* mask = masks.data() + test.first_mask;
        while ((mask[suspect / word_bits] >> suspect % word_bits & 1U) == 0) mask += words;
        return mask;
    }
    double way(std::size_t from, std::size_t to) const { return shortest[from * workshop.places() + to]; }
    // Is the table of ways the shortest there is?
    bool no_detour_is_shorter() const;

  private:
    void set_family_masks();
    void number_suspects(const Outline& outline, const std::vector<double>& weight_of_kind);
    void link_suspects(const Outline& outline, const std::vector<double>& weight_of_kind);
    void add_tests(const Outline& outline);
    void drop_superfluous_tests();
    std::uint32_t number_outcomes(const Outline& outline, const Test& test);
    void count_outcomes_by_family();
    void add_bare(const Outline& outline);
    void set_step_minutes();
    std::uint32_t pocket_of(const access::Site& site);
    void compare_places();

    std::vector<std::uint8_t> shown_;  // scratch of add_tests(): outcomes of one test, by suspect
};

// Least minutes of the own look that a suspect must cost to be counted in the length bound (see
// docs/reference/planning.md).
inline bool counts_for_length(const Model& model, const Suspect& suspect) {
    return model.isolating || model.bare[suspect.element].site.minutes >= 2 * model.step_minutes;
}

}  // namespace halfsplit::plan
