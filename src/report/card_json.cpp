#include "halfsplit/report/card_report.hpp"

#include <nlohmann/json.hpp>

#include "advice/step_json.hpp"
#include "base/json_out.hpp"
#include "report/quote.hpp"
#include "report/stage.hpp"

namespace halfsplit::report {

using advice::Action;
using nlohmann::json;

namespace {

json outcome_json(const advice::CardStep& step, const advice::CardOutcome& outcome) {
    json out{{"shows", outcome.shows}, {"chance", rounded(outcome.chance)}};
    if (step.action == Action::Read && outcome.high_ohm > 0) {
        out["low_ohm"] = ohm_to_json(outcome.low_ohm);
        out["high_ohm"] = ohm_to_json(outcome.high_ohm);
    }
    if (step.quantity == "volt" && outcome.low_volt < outcome.high_volt) {
        out["low_volt"] = rounded(outcome.low_volt);
        out["high_volt"] = rounded(outcome.high_volt);
    }
    if (step.action == Action::Scan) out["answering"] = outcome.answering;
    if (outcome.goes_to > 0)
        out["step"] = outcome.goes_to;
    else
        out["parts"] = outcome.parts;
    return out;
}

json step_json(const advice::CardStep& step) {
    json out{{"number", step.number},
             {"action", advice::word(step.action)},
             {"prepare", step.prepare},
             {"travel_to", step.travel_to},
             {"travel_minutes", rounded(step.travel_minutes)},
             {"covers", step.covers},
             {"cautions", step.cautions},
             {"minutes", rounded(step.minutes)},
             {"chance", rounded(step.chance)},
             {"to_the_screen", rounded(step.folded)}};
    out["outcomes"] = listed(step.outcomes, [&](const auto& outcome) { return outcome_json(step, outcome); });
    if (step.action == Action::Look) out["target"] = step.target;
    if (step.action == Action::Read) {
        out["red"] = step.red;
        out["black"] = step.black;
        out["quantity"] = step.quantity;
        out["move_loom"] = step.move_loom;
    }
    if (!step.bus.empty()) out["bus"] = step.bus;
    return out;
}

json named_json(const std::vector<advice::CardItem>& all) {
    return listed(all, [](const advice::CardItem& one) { return json{{"id", one.id}, {"name", one.name}}; });
}

}  // namespace

json card_json(const advice::Card& card, const std::string& subject, Paper paper) {
    json out{{"subject", subject},
             {"title", card.title},
             {"network", card.network},
             {"network_name", card.network_name},
             {"paper", word(paper)},
             {"stage", stage_word(card.stage)},
             {"clip", card.clip},
             {"start", card.place},
             {"scanned", card.scanned},
             {"aim", card.aim},
             {"share", rounded(card.share)},
             {"refit", named_json(to_refit(card))},
             {"reconnect", named_json(to_reconnect(card))},
             {"assumed", card.assumed}};
    out["steps"] = listed(card.steps, step_json);
    if (card.stage == advice::Left::Stage::Hunting && !card.clip.empty())
        out["quote"] = quote_json(card.quote);
    if (card.stage == advice::Left::Stage::Found) out["found"] = card.found;
    return out;
}

}  // namespace halfsplit::report
