#include "benchmarks/demo_problems.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/harness/vehicle.hpp"
#include "halfsplit/plan/one_step.hpp"

#include "advice/problem.hpp"
#include "advice/standing.hpp"
#include "plan/outline.hpp"
#include "plan/prospect.hpp"
#include "support/begun_job.hpp"
#include "support/harnesses.hpp"

#include <algorithm>

namespace halfsplit::test {

namespace {

using harness::Index;

// Without what is so unlikely that advice leaves it out of its planning.
plan::Problem cut(plan::Problem problem) {
    const plan::Outline outline(problem);
    const std::vector<double> kept = plan::cut(outline.prior(), plan::OneStepOptions{}.ignored);
    for (std::size_t h = 0; h < problem.hypotheses.size(); ++h)
        if (kept[outline.kind_of[h]] == 0) problem.hypotheses[h].probability = 0;
    return problem;
}

plan::Problem posed(const harness::Harness& harness, Index network, const job::State& state) {
    diagnosis::Predictor predictor(harness, network);
    const access::Costs costs(harness, network);
    const diagnosis::Belief belief = infer(predictor, advice::evidence(harness, network, state));
    const auto standing = advice::standing_of(harness, network, costs, state);
    const Index clip = advice::clip_point(harness, network, state);
    return cut(advice::pose({{harness, network, belief, costs, standing, clip}, {}, {}}, predictor).problem);
}

std::vector<std::string> modules_named(const harness::Harness& harness, Index network) {
    std::vector<std::string> names;
    for (const Index module : harness::modules_on(harness, network))
        names.push_back(harness.parts[module].id);
    return names;
}

}  // namespace

std::vector<DemoProblem> demo_problems() {
    std::vector<DemoProblem> result;
    for (const std::string vehicle : {"minibus", "forestry"}) {
        const harness::Harness harness = harness_from("data/demo/" + vehicle + ".json");
        for (Index network = 0; network < harness.networks.size(); ++network) {
            const std::vector<std::string> modules = modules_named(harness, network);
            const std::string bus = vehicle + ", " + harness.networks[network].id + ": ";
            for (const std::string& silent : modules) {
                std::vector<std::string> answering = modules;
                answering.erase(std::find(answering.begin(), answering.end(), silent));
                result.push_back(
                    {bus + silent + " silent", posed(harness, network, begun(answering, {silent}))});
            }
            result.push_back({bus + "all silent", posed(harness, network, begun({}, modules))});
        }
    }
    return result;
}

}  // namespace halfsplit::test
