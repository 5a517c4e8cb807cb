#include "report/review_pictures.hpp"

namespace halfsplit::report {

using advice::Review;
using advice::ReviewStep;
using harness::Harness;
using harness::Index;

namespace {

constexpr const char* symbol_id = "bus";

bool changes_picture(const ReviewStep& step) {
    const job::Body& body = step.event.body;
    return step.outlook || std::holds_alternative<job::Reading>(body) ||
           std::holds_alternative<job::Seen>(body) || std::holds_alternative<job::PlugChange>(body);
}

std::string first_clip(const Harness& harness, Index network) {
    if (network >= harness.networks.size()) return "";
    const Index clip = harness.networks[network].clip;
    return clip == harness::none ? "" : harness::point_name(harness, clip);
}

}  // namespace

Pictures::Pictures(const Review& review, const Harness& harness, Index network)
    : review_(review), drawing_(harness, network, symbol_id) {
    marks_.clip = first_clip(harness, network);
    for (const advice::Named& part : review.open.parts_apart) apart_at_end_.push_back(part.id);
    take(review.start);
}

std::string Pictures::symbol() const {
    return "<svg width=\"0\" height=\"0\" aria-hidden=\"true\">" + drawing_.symbol(symbol_id) + "</svg>\n";
}

// What was suspected and is not any more is cleared, until it is suspected again.
void Pictures::take(const advice::Outlook& outlook) {
    for (const auto& [part, ignored] : marks_.suspects) marks_.cleared.insert(part);
    marks_.suspects.clear();
    for (const advice::PartChance& part : outlook.leading) {
        marks_.suspects[part.part] = part.probability;
        marks_.cleared.erase(part.part);
    }
}

void Pictures::take(const ReviewStep& step) {
    marks_.probe.clear();
    if (step.outlook) take(*step.outlook);
    const job::Body& body = step.event.body;
    if (const auto* reading = std::get_if<job::Reading>(&body)) marks_.probe = reading->red;
    if (const auto* clip = std::get_if<job::ClipMoved>(&body)) marks_.clip = clip->point;
    if (const auto* repair = std::get_if<job::Repair>(&body)) marks_.found.erase(repair->part);
    const auto* seen = std::get_if<job::Seen>(&body);
    if (seen == nullptr) return;
    marks_.probe = seen->part;
    if (seen->verdict == job::Verdict::Faulty && step.counts) marks_.found.insert(seen->part);
    if (seen->verdict == job::Verdict::Sound) marks_.found.erase(seen->part);
}

const std::vector<std::string>& Pictures::apart_after(std::size_t step) {
    return step + 1 < review_.steps.size() ? review_.steps[step + 1].state.apart : apart_at_end_;
}

std::string Pictures::after(std::size_t step) {
    for (; taken_ <= step; ++taken_) take(review_.steps[taken_]);
    if (!changes_picture(review_.steps[step])) return {};
    const std::vector<std::string>& apart = apart_after(step);
    marks_.unplugged = {apart.begin(), apart.end()};
    return drawing_.step(symbol_id, marks_);
}

}  // namespace halfsplit::report
