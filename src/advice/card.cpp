#include "halfsplit/advice/card.hpp"

#include "halfsplit/access/costs.hpp"
#include "halfsplit/diagnosis/belief.hpp"

#include "advice/deal.hpp"
#include "advice/spot.hpp"

namespace halfsplit::advice {

Card card(const harness::Harness& harness, harness::Index network, const Aim& aim) {
    const harness::Index clip = harness.networks[network].clip;
    const access::Standing standing{harness.start, 0};
    Card result = begun_card(harness, network, clip, standing, aim);
    result.assumed = assumed(harness, harness.assumptions);
    if (clip == harness::none) return result;
    diagnosis::Predictor predictor(harness, network);
    const access::Costs costs(harness, network);
    const diagnosis::Belief prior = infer(predictor, {});
    const Posed posed = pose({{harness, network, prior, costs, standing, clip}, {}, {}}, predictor);
    deal({harness, network, costs, standing, posed}, whole_plan(posed, aim, least_card_chance), result);
    return result;
}

}  // namespace halfsplit::advice
