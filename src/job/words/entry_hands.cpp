// What was seen and done: looks, covers, plugs, the clip, repairs.
#include <fmt/format.h>

#include "choices.hpp"
#include "entries.hpp"
#include "names.hpp"

namespace halfsplit::job {

namespace {

using harness::PartKind;

constexpr Choices<Verdict, 4> verdicts{{{"faulty", Verdict::Faulty},
                                        {"sound", Verdict::Sound},
                                        {"unsure", Verdict::NotSure},
                                        {"unreached", Verdict::CouldNotReach}}};

constexpr Choices<RepairAction, 5> actions{{{"reseated", RepairAction::Reseated},
                                            {"cleaned", RepairAction::Cleaned},
                                            {"repaired", RepairAction::Repaired},
                                            {"replaced", RepairAction::Replaced},
                                            {"bridged", RepairAction::BridgePlugFitted}}};

constexpr Choices<bool, 2> ways{{{"off", true}, {"on", false}}};

std::string first_bridge_plug(const harness::Harness& harness) {
    for (const harness::Part& part : harness.parts) {
        if (part.kind == PartKind::BridgePlug) return part.id;
    }
    return "";
}

void require_bridge_plug(const Input& input, const harness::Harness& harness, const harness::Part& part) {
    if (part.kind == PartKind::BridgePlug) return;
    const std::string plug = first_bridge_plug(harness);
    input.refuse_last({"event-not-possible", fmt::format("{} is a {}", part.id, word(part.kind)),
                       "the name of the bridge plug that was fitted", plug,
                       plug.empty() ? "This harness has no bridge plug; say what was done as a remark."
                                    : fmt::format("For example: repair {} bridged", plug)});
}

Body plug_change(Input& input, const Context& context, bool plugged) {
    input.take();
    const harness::Part& part = context.harness.parts[take_part(input, context.harness)];
    if (part.kind == PartKind::Splice || part.kind == PartKind::Run || part.kind == PartKind::Socket) {
        input.refuse_last({"event-not-possible",
                           fmt::format("{} is a {}, which has no plug", part.id, word(part.kind)),
                           "a connector, module, bridge plug or terminator", "",
                           "Name the connector that was pulled or put together."});
    }
    input.require_done("the part");
    return PlugChange{part.id, plugged, false};
}

}  // namespace

Body seen(Input& input, const Context& context) {
    input.take();
    Seen seen;
    seen.part = context.harness.parts[take_part(input, context.harness)].id;
    seen.verdict = take_choice(input, verdicts, "For example: seen " + seen.part + " faulty green pin");
    seen.what = input.take_rest();
    return seen;
}

Body awaited_look(Input& input, const Context& context) {
    if (context.expectation.part.empty()) {
        input.refuse_next(
            {"event-nothing-awaited",
             fmt::format("'{}' says how a part looks, but no look is awaited here", input.peek()),
             "which part was looked at", "", fmt::format("For example: seen X3 {}", input.peek())});
    }
    Seen seen;
    seen.part = context.expectation.part;
    seen.verdict = take_choice(input, verdicts, "For example: faulty green pin");
    seen.what = input.take_rest();
    return seen;
}

Body cover(Input& input, const Context& context) {
    input.take();
    CoverChange change;
    change.off = take_choice(input, ways, "For example: cover off NAME");
    change.cover = context.harness.covers[take_cover(input, context.harness)].id;
    input.require_done("the cover");
    return change;
}

Body unplugged(Input& input, const Context& context) {
    return plug_change(input, context, false);
}
Body plugged(Input& input, const Context& context) {
    return plug_change(input, context, true);
}

Body clip(Input& input, const Context& context) {
    input.take();
    const harness::Index point = take_point(input, context.harness);
    input.require_done("the point");
    return ClipMoved{harness::point_name(context.harness, point)};
}

Body repair(Input& input, const Context& context) {
    input.take();
    const harness::Part& part = context.harness.parts[take_part(input, context.harness)];
    Repair repair;
    repair.part = part.id;
    repair.action = take_choice(input, actions, "For example: repair " + part.id + " reseated");
    if (repair.action == RepairAction::BridgePlugFitted) require_bridge_plug(input, context.harness, part);
    repair.what = input.take_rest();
    return repair;
}

}  // namespace halfsplit::job
