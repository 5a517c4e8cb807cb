#include "halfsplit/report/left_report.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/base/units.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/json_out.hpp"
#include "report/page.hpp"
#include "report/quote.hpp"
#include "report/stage.hpp"

namespace halfsplit::report {

using advice::Left;
using nlohmann::json;

std::string stage_word(Left::Stage stage) {
    switch (stage) {
        case Left::Stage::Hunting:
            return "hunting";
        case Left::Stage::NothingFound:
            return "nothing-found";
        case Left::Stage::NotTold:
            return "not-told";
        case Left::Stage::Found:
            return "found";
        case Left::Stage::Mended:
            return "mended";
        case Left::Stage::Cured:
            return "cured";
    }
    return "";
}

namespace {

std::string left_words(const Left& left) {
    switch (left.stage) {
        case Left::Stage::Hunting:
            return quote_words(left.quote, left.aim, "here");
        case Left::Stage::NothingFound:
            return "nothing is likely to be wrong on this bus as far as the readings can tell";
        case Left::Stage::NotTold:
            return "what may be wrong could not be reached, or looks did not tell: look again, or renew what "
                   "is "
                   "likeliest";
        case Left::Stage::Found:
            return fmt::format("{} was seen to be faulty: its repair, the proof, and refitting", left.found);
        case Left::Stage::Mended:
            return "the repair waits for its proof";
        case Left::Stage::Cured:
            return left.refit_minutes > 0 ? "the repair is proven: refitting"
                                          : "nothing: the repair is proven";
    }
    return "";
}

}  // namespace

std::string left_text(const std::string& job, const Left& left, std::size_t columns) {
    constexpr std::size_t indent = 2, label = 10;
    Page page(columns);
    page.heading(fmt::format("JOB {}", printable(job)));
    page.labelled("spent", format_minutes(left.minutes_spent), indent, label);
    page.labelled("left", left_words(left), indent, label);
    if (left.stage == Left::Stage::Hunting)
        page.labelled("not cured", not_cured_words(left.not_cured), indent, label);
    if (left.refit_minutes > 0)
        page.labelled(
            "refitting",
            fmt::format("{} of covers that are off, beside that", format_minutes(left.refit_minutes)), indent,
            label);
    add_costly_parts(left.costly,
                     "DEAREST TO LAY BARE of what may be at fault, from here, refitting included", page);
    return page.text();
}

json left_json(const std::string& job, const Left& left) {
    json out{{"job", job},
             {"stage", stage_word(left.stage)},
             {"minutes_spent", rounded(left.minutes_spent)},
             {"refit_minutes", rounded(left.refit_minutes)},
             {"costly", costly_json(left.costly)}};
    if (left.stage == Left::Stage::Hunting) {
        out["quote"] = quote_json(left.quote);
        out["not_cured"] = not_cured_json(left.not_cured);
    }
    if (left.stage == Left::Stage::Found) out["found"] = left.found;
    return out;
}

}  // namespace halfsplit::report
