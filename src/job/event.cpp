#include "halfsplit/job/event.hpp"

#include <array>

namespace halfsplit::job {

namespace {

// By position in Body.
constexpr std::array<std::string_view, std::variant_size_v<Body>> kinds{
    "opened", "intake", "safe-state", "answers",     "reading", "distance", "seen",    "cover",
    "plug",   "clip",   "repair",     "verified",    "remark",  "paused",   "resumed", "closed",
    "meter",  "pins",   "differs",    "recommended", "amend",   "undo"};

}  // namespace

bool Amend::operator==(const Amend& other) const {
    if (target != other.target) return false;
    if (!event || !other.event) return event == other.event;
    return *event == *other.event;
}

std::string_view kind(const Event& event) {
    return kinds[event.body.index()];
}

bool is_implied(const Event& event) {
    if (const auto* cover = std::get_if<CoverChange>(&event.body)) return cover->implied;
    if (const auto* plug = std::get_if<PlugChange>(&event.body)) return plug->implied;
    return false;
}

bool may_be_amended(const Event& event) {
    return !std::holds_alternative<Opened>(event.body) && !std::holds_alternative<Recommended>(event.body) &&
           !std::holds_alternative<Amend>(event.body) && !std::holds_alternative<Undo>(event.body);
}

}  // namespace halfsplit::job
