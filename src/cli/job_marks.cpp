#include "cli/job_marks.hpp"

#include "halfsplit/advice/advisor.hpp"
#include "halfsplit/advice/recommendation_json.hpp"

namespace halfsplit::cli {

namespace {

using harness::Harness;
using harness::Index;

bool proven(const job::State& state) {
    return state.closed || (state.verified && state.verified->complaint_gone.value_or(false));
}

void mark_belief(const Harness& harness, Index network, const job::State& state, drawing::Marks& marks) {
    constexpr double suspect = 0.01, cleared = 0.005, share_left = 0.05;
    advice::Advisor advisor(harness, network);
    const auto before = diagnosis::by_part(advisor.believe({}), harness);
    const auto now = diagnosis::by_part(advisor.believe(state), harness);
    for (Index part = 0; part < now.size(); ++part) {
        const std::string& id = harness.parts[part].id;
        if (now[part] >= suspect) marks.suspects[id] = now[part];
        if (before[part] > 0 && now[part] < cleared && now[part] < share_left * before[part])
            marks.cleared.insert(id);
    }
}

}  // namespace

drawing::Marks job_marks(const Harness& harness, Index network, const job::State& state) {
    drawing::Marks marks;
    if (!proven(state)) mark_belief(harness, network, state, marks);
    for (const job::SeenPart& seen : state.seen)
        if (seen.seen.verdict == job::Verdict::Faulty) marks.found.insert(seen.seen.part);
    marks.unplugged.insert(state.apart.begin(), state.apart.end());
    const Index clip = harness.networks[network].clip;
    marks.clip =
        !state.clip.empty() || clip == harness::none ? state.clip : harness::point_name(harness, clip);
    if (!state.recommended || proven(state)) return marks;
    const advice::Recommendation advice = advice::from_text(state.recommended->json);
    if (advice.action == advice::Action::Read) marks.probe = advice.red.name;
    if (advice.action == advice::Action::Look) marks.probe = advice.target.part;
    return marks;
}

}  // namespace halfsplit::cli
