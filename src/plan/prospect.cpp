#include "plan/prospect.hpp"

#include <algorithm>
#include <numeric>

namespace halfsplit::plan {

std::vector<double> cut(std::vector<double> weight, double ignored) {
    std::vector<std::size_t> order(weight.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return weight[a] < weight[b]; });
    double left_out = 0;
    const double most = ignored * std::accumulate(weight.begin(), weight.end(), 0.0);
    for (std::size_t i = 0; i + 1 < order.size() && left_out + weight[order[i]] <= most; ++i) {
        left_out += weight[order[i]];
        weight[order[i]] = 0;
    }
    return weight;
}

Prospect::Prospect(const Opening& opening, const std::vector<double>& by_kind,
                   const std::vector<bool>& consistent, double unlikely, const access::Standing& standing)
    : standing_(standing) {
    if (take_from_opening(opening, by_kind, consistent, unlikely)) return;
    own_ground_ = std::make_unique<Ground>(opening.outline, cut(by_kind, opening.ignored));
    own_ = std::make_unique<Desk>(*own_ground_, opening.limits);
    desk_ = own_.get();
    set_ = desk_->sets().all();
}

// What the first cut kept serves again as long as it still holds most of the probability: then all that is
// known of the opening's sets is known of these.
bool Prospect::take_from_opening(const Opening& opening, const std::vector<double>& by_kind,
                                 const std::vector<bool>& consistent, double unlikely) {
    const Model& model = opening.desk.model();
    std::vector<Word> likelier(model.words, 0);
    double held = 0;
    std::size_t believed = 0, agreeing = 0;
    for (std::size_t s = 0; s < model.suspects.size(); ++s) {
        if (by_kind[model.kind[s]] <= 0) continue;
        held += by_kind[model.kind[s]];
        ++believed;
        if (!consistent[model.kind[s]]) continue;
        ++agreeing;
        likelier[s / word_bits] |= Word{1} << s % word_bits;
    }
    if (held < 1 - 2 * opening.ignored) return false;
    desk_ = &opening.desk;
    if (unlikely == 0 && agreeing > 0) {
        set_ = desk_->sets().intern(likelier);
    } else if (agreeing == 0 || agreeing == believed) {
        set_ = desk_->sets().all();
    } else {
        own_ = std::make_unique<Desk>(opening.desk, likelier, unlikely, opening.limits);
        desk_ = own_.get();
        set_ = desk_->sets().all();
    }
    return true;
}

}  // namespace halfsplit::plan
