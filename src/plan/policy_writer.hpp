// A whole plan written out step by step, by asking at each state what is done there.
#pragma once

#include "halfsplit/plan/policy.hpp"

#include "plan/desk.hpp"

#include <functional>
#include <utility>
#include <vector>

namespace halfsplit::plan {

class PolicyWriter {
  public:
    // What is done with a set at a standing, so many minutes into the hunt.
    using Choose = std::function<Move(SetId set, const access::Standing& standing, double spent)>;

    PolicyWriter(const Problem& problem, const Outline& outline, Ground& ground, Choose choose);

    // Steps and minutes; of the solution only what they say: the first step, expected and worst minutes.
    Policy write();

  private:
    // Writes what is done with these suspects, `spent` minutes into the hunt; where in the policy it begins.
    std::size_t write(const Move& move, const access::Standing& standing,
                      const std::vector<std::size_t>& suspects, double spent);
    std::size_t write_test(std::uint32_t index, const access::Standing& standing,
                           const std::vector<std::size_t>& suspects, double spent);
    std::size_t write_look(std::uint32_t element, const access::Standing& standing,
                           const std::vector<std::size_t>& suspects, double spent);
    std::size_t write_group(const std::vector<std::uint32_t>& elements, access::Standing standing,
                            std::vector<std::size_t> suspects, double spent);
    std::size_t begin(Step step, std::size_t index, double minutes, const std::vector<std::size_t>& suspects);
    std::pair<std::size_t, std::vector<std::size_t>> look(std::uint32_t element,
                                                          const access::Standing& standing,
                                                          const std::vector<std::size_t>& suspects,
                                                          double spent);
    void go_on(std::size_t own, const std::vector<std::size_t>& guilty, const access::Standing& then,
               double spent);
    void add_branch(std::size_t own, int outcome, const std::vector<std::size_t>& left,
                    const access::Standing& then, double spent);
    void add_branch(std::size_t own, const PolicyStep::Branch& branch);
    SetId set_of(const std::vector<std::size_t>& hypotheses);
    double chance_of(const std::vector<std::size_t>& hypotheses) const;
    void sum_up();

    const Problem& problem_;
    const Outline& outline_;
    Ground& ground_;
    Choose choose_;
    std::vector<double> prior_;  // by hypothesis, sums to 1 over `at_first_`; what another goes on to has
                                 // that one's
    std::vector<std::size_t> at_first_;  // hypotheses that may be true before anything was mended
    Policy policy_;
};

}  // namespace halfsplit::plan
