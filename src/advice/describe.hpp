// A step of the plan in the terms of a recommendation: where to go, what to open, what to arrange first, what
// may come out of it and what that would leave.
#pragma once

#include "halfsplit/access/costs.hpp"
#include "halfsplit/advice/recommendation.hpp"
#include "halfsplit/plan/one_step.hpp"

#include "advice/arrangement.hpp"
#include "advice/problem.hpp"

#include <cstddef>
#include <vector>

namespace halfsplit::advice {

// A part below this is not counted as a suspect.
inline constexpr double suspect_chance = 0.01;

// Parts with a chance worth naming, likeliest first. `by_part`: chance by part.
std::vector<PartChance> leading_parts(const harness::Harness& harness, const std::vector<double>& by_part);

// Who answers a scan, of the modules on that network: the shorter list of who does and who does not, and no
// more than `most` of it.
std::string answering_words(const harness::Harness& harness, harness::Index network,
                            const std::vector<harness::Index>& answering, std::size_t most);

class Describer {
  public:
    // Keeps references; `standing` is where the technician is now.
    Describer(const harness::Harness& harness, const access::Costs& costs, const access::Standing& standing,
              Recommendation& advice)
        : harness_(harness), costs_(costs), standing_(standing), advice_(advice) {}

    // The step that is recommended: action, spots, way, preparations, outcomes. `now`: how the bus is
    // arranged.
    void step(const plan::Option& option, const Posed& posed, const Arrangement& now);
    void alternative(const plan::Option& option, const Posed& posed);

    // The way to a site from there: walk, covers, cautions.
    void approach(const access::Site& site, const access::Standing& from);
    // What has to be arranged first, in order: whatever is unplugged or plugged in is so on a dead bus.
    // Returns where one stands then. Each is one step away from how things stood at first, besides switching
    // the battery.
    access::Standing prepare(const Arrangement& now, const Arrangement& then);

  private:
    void test(const plan::Option& option, const Posed& posed, const Arrangement& now);
    void look(const plan::Option& option, const Posed& posed, electrics::Power now);
    access::Standing arrange(const Arrangement& arrangement, const access::Standing& from);
    void switch_over(electrics::Power now, electrics::Power then);
    Forecast forecast(const plan::OutcomeView& outcome, const OutcomeClass& shows, const Posed& posed) const;
    void mark_clip(harness::Index clip_point);
    void add_cautions(harness::Index place, const std::vector<harness::Index>& covers);

    const harness::Harness& harness_;
    const access::Costs& costs_;
    const access::Standing& standing_;
    Recommendation& advice_;
};

}  // namespace halfsplit::advice
