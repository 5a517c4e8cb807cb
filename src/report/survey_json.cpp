#include "halfsplit/report/survey_report.hpp"

#include <nlohmann/json.hpp>

#include "base/json_out.hpp"
#include "report/quote.hpp"

#include <cmath>

namespace halfsplit::report {

using nlohmann::json;

namespace {

json share_json(const advice::Share& share) {
    return {{"of_faults", rounded(share.of_faults)}, {"by_chance", rounded(share.by_chance)}};
}

json test_json(const advice::ExtraTest& test) {
    json out{{"red", test.red},
             {"black", test.black},
             {"moves_clip", test.moves_clip},
             {"minutes", rounded(test.minutes)},
             {"bits", rounded(test.bits)},
             {"cautions", test.cautions}};
    if (!test.unplug.empty()) out["unplug"] = test.unplug;
    if (!test.red_line.empty()) out["red_line"] = test.red_line;
    if (!test.black_line.empty()) out["black_line"] = test.black_line;
    out["outcomes"] = listed(test.outcomes, [](const advice::SplitOutcome& outcome) {
        return json{{"shows", outcome.shows},
                    {"chance", rounded(outcome.chance)},
                    {"parts", outcome.parts},
                    {"sound", outcome.sound}};
    });
    return out;
}

json group_json(const advice::AmbiguityGroup& group) {
    json out{{"chance", rounded(group.chance)}, {"sound", group.sound}, {"parts", group.parts},
             {"faults", group.faults},          {"modes", group.modes}, {"variants", group.variants}};
    if (group.cheapest) out["cheapest"] = test_json(*group.cheapest);
    if (group.sharpest) out["sharpest"] = test_json(*group.sharpest);
    return out;
}

json network_json(const advice::Survey& survey) {
    json out{{"network", survey.network},
             {"name", survey.network_name},
             {"parts", survey.parts},
             {"points", survey.points},
             {"readings", survey.readings},
             {"variants", survey.variants},
             {"faults", survey.faults},
             {"detected", share_json(survey.detected)},
             {"isolated_to_one", share_json(survey.to_one)},
             {"isolated_to_two", share_json(survey.to_two)},
             {"isolated_to_three", share_json(survey.to_three)},
             {"largest_group", survey.largest_group},
             {"assumed", survey.assumed}};
    if (!survey.clip.empty()) {
        out["clip"] = survey.clip;
        out["quote"] = quote_json(survey.quote);
        out["not_cured"] = not_cured_json(survey.not_cured);
    }
    out["groups"] = listed(survey.groups, group_json);
    out["costly"] = costly_json(survey.costly);
    return out;
}

}  // namespace

json survey_json(const std::string& file, const std::vector<advice::Survey>& networks) {
    return {{"file", file}, {"networks", listed(networks, network_json)}};
}

}  // namespace halfsplit::report
