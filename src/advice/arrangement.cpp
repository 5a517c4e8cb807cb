#include "advice/arrangement.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/harness/vehicle.hpp"

#include "advice/candidates.hpp"

#include <algorithm>
#include <array>

namespace halfsplit::advice {

using diagnosis::Contact;
using diagnosis::Mode;
using diagnosis::Tips;
using electrics::Power;
using harness::Harness;
using harness::Index;
using harness::none;
using harness::Part;
using harness::PartKind;

namespace {

// From this share of all that could be wrong on, a short is worth taking the bus apart for.
constexpr double short_share = 0.02;

bool is_short(const diagnosis::Fault& fault) {
    return fault.mode == Mode::ShortLines || fault.mode == Mode::ShortGround ||
           fault.mode == Mode::ShortSupply;
}

bool draws_a_line(const diagnosis::Fault& fault) {
    return fault.mode == Mode::ShortGround || fault.mode == Mode::ShortSupply;
}

// Of all that could be wrong.
double share_of(const Harness& harness, const diagnosis::Belief& belief,
                bool (*is_one)(const diagnosis::Fault&)) {
    double share = 0, faulty = 0;
    for (std::size_t i = 0; i < belief.explanations.size(); ++i) {
        const auto left = unmended(harness, belief.explanations[i], belief.now);
        if (left.empty()) continue;
        faulty += belief.probability[i];
        if (std::any_of(left.begin(), left.end(), is_one)) share += belief.probability[i];
    }
    return faulty > 0 ? share / faulty : 0;
}

bool terminates(const Part& part, Index network) {
    using Terminator = harness::Attachment::Terminator;
    if (part.kind == PartKind::Terminator) return part.network == network;
    return std::any_of(part.attachments.begin(), part.attachments.end(), [&](const auto& attachment) {
        return attachment.network == network && (attachment.terminator == Terminator::BuiltIn ||
                                                 attachment.terminator == Terminator::SwitchedOn);
    });
}

bool passes_through(const Part& part, Index network) {
    if (part.kind == PartKind::Connector) return true;
    if (part.kind == PartKind::BridgePlug) return part.network == network;
    return part.kind == PartKind::Module &&
           std::any_of(part.attachments.begin(), part.attachments.end(), [&](const auto& attachment) {
               return attachment.network == network && attachment.loop;
           });
}

class Arranger {
  public:
    Arranger(const ArrangementInput& input, std::size_t most_clips)
        : input_(input), most_clips_(most_clips), present_(harness::presence(input.harness)) {
        points_of_part_.resize(input.harness.parts.size());
        for (Index point = 0; point < input.harness.points.size(); ++point) {
            if (input.harness.points[point].network == input.network)
                points_of_part_[input.harness.points[point].part].push_back(point);
        }
    }

    std::vector<Arrangement> run() {
        Arrangement now;
        now.apart = input_.belief.now.apart;
        now.clip = input_.clip;
        now.power = input_.power;
        result_.push_back(now);
        if (input_.power != Power::Off) add(ArrangingStep::None, none);
        for (const Index part : input_.belief.now.apart) plug_in(part);
        const bool shorts = share_of(input_.harness, input_.belief, is_short) >= short_share;
        for (Index part = 0; part < input_.harness.parts.size(); ++part) {
            const Part& own = input_.harness.parts[part];
            if (!may_be_read(part) || is_apart(part)) continue;
            if (terminates(own, input_.network) || (shorts && passes_through(own, input_.network)))
                unplug(part);
        }
        move_clip();
        switch_on();
        ask_who_answers();
        return std::move(result_);
    }

  private:
    bool may_be_read(Index part) const {
        return present_[part] != harness::Fitted::No && !points_of_part_[part].empty();
    }

    bool is_apart(Index part) const {
        const auto& apart = input_.belief.now.apart;
        return std::find(apart.begin(), apart.end(), part) != apart.end();
    }

    Arrangement& add(ArrangingStep step, Index part) {
        Arrangement arrangement = result_.front();
        arrangement.step = step;
        arrangement.part = part;
        arrangement.power = Power::Off;
        result_.push_back(std::move(arrangement));
        return result_.back();
    }

    access::Site at_part(Index part, double minutes) const {
        access::Site site = input_.costs.look(part);
        site.minutes = minutes;
        return site;
    }

    // Its minutes are owed since it was unplugged.
    void plug_in(Index part) {
        Arrangement& plugged = add(ArrangingStep::PlugIn, part);
        plugged.apart.erase(std::remove(plugged.apart.begin(), plugged.apart.end(), part),
                            plugged.apart.end());
        plugged.site = at_part(part, 0);
        plugged.back_place = plugged.site.place;
        plugged.back_minutes = minutes_of_unplugging();
    }

    void unplug(Index part) {
        Arrangement& apart = add(ArrangingStep::Unplug, part);
        apart.apart.insert(std::upper_bound(apart.apart.begin(), apart.apart.end(), part), part);
        apart.site = at_part(part, minutes_of_unplugging());
        apart.back_place = apart.site.place;
    }

    double minutes_of_unplugging() const {
        const harness::Assumptions& rates = input_.harness.assumptions;
        return rates.unmate_minutes + rates.remate_minutes;
    }

    // Nearest first.
    void move_clip() {
        std::vector<std::pair<double, Index>> near;
        for (Index part = 0; part < points_of_part_.size(); ++part) {
            if (!may_be_read(part)) continue;
            for (const Index point : points_of_part_[part]) {
                if (point == input_.clip) continue;
                near.emplace_back(input_.costs.workshop().reach(input_.costs.clip(point),
                                                                input_.standing.place, input_.standing.off),
                                  point);
            }
        }
        std::stable_sort(near.begin(), near.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        for (std::size_t i = 0; i < std::min(most_clips_, near.size()); ++i) {
            Arrangement& moved = add(ArrangingStep::MoveClip, none);
            moved.clip = near[i].second;
            moved.site = input_.costs.clip(moved.clip);
            moved.back_place = input_.costs.clip(input_.clip).place;
            moved.back_minutes = input_.harness.assumptions.clip_minutes;
        }
    }

    void switch_on() {
        if (!volts_may_tell(input_.harness, input_.network, input_.belief)) return;
        for (const Power power : {Power::Awake, Power::Asleep}) {
            if (power != input_.power) add(ArrangingStep::None, none).power = power;
        }
    }

    // A part is unplugged on a dead bus, so that the battery is on and off again for each.
    void ask_who_answers() {
        if (scanning_terminal(input_.harness, input_.network) == none) return;
        std::vector<Arrangement> asking;
        if (!input_.scanned) asking.push_back(result_.front());
        for (const Arrangement& one : result_) {
            if (one.step == ArrangingStep::Unplug &&
                passes_through(input_.harness.parts[one.part], input_.network))
                asking.push_back(one);
        }
        for (Arrangement& one : asking) {
            one.power = Power::Awake;
            one.scan = true;
            result_.push_back(std::move(one));
        }
    }

    const ArrangementInput& input_;
    std::size_t most_clips_;
    std::vector<harness::Fitted> present_;
    std::vector<std::vector<Index>> points_of_part_;
    std::vector<Arrangement> result_;
};

// At the halves or plugs of a part that is apart.
void add_readings_of_part(const Harness& harness, Index network, Index part, std::vector<Tips>& result) {
    for (const Tips& pair : pairs_of_points(harness, network)) {
        if (harness.terminals[pair.red.terminal].part != part) continue;
        result.push_back(pair);
        result.push_back({pair.red, {Contact::Kind::Ground, none}});
        result.push_back({pair.red, {Contact::Kind::Supply, none}});
    }
}

// What is read with nothing more taken apart.
std::vector<Tips> readings_as_it_stands(const Arrangement& arrangement, const Harness& harness,
                                        Index network) {
    std::vector<Tips> result = candidate_readings(harness, network, arrangement.clip);
    const Tips at_clip = result.front();
    for (const Tips& pair : pairs_of_points(harness, network)) {
        if (!(pair == at_clip)) result.push_back(pair);
    }
    for (const Index part : arrangement.apart) add_readings_of_part(harness, network, part, result);
    return result;
}

// One lead on any good ground near by: no clip, no long lead.
std::vector<Tips> readings_in_volts(const Arrangement& arrangement, const Harness& harness, Index network) {
    std::vector<Index> points{arrangement.clip};
    for (Index point = 0; point < harness.points.size(); ++point) {
        if (point != arrangement.clip && harness.points[point].network == network) points.push_back(point);
    }
    std::vector<Tips> result;
    for (const Index point : points) {
        for (const Index terminal : harness.points[point].terminal)
            result.push_back({diagnosis::at(terminal), {Contact::Kind::Ground, none}});
    }
    return result;
}

}  // namespace

Index scanning_terminal(const Harness& harness, Index network) {
    for (const Part& part : harness.parts) {
        if (part.kind != PartKind::Socket) continue;
        for (const auto& attachment : part.attachments) {
            if (attachment.network == network && attachment.in.terminal[0] != none)
                return attachment.in.terminal[0];
        }
    }
    return none;
}

double power_minutes(Power from, Power to, const harness::Assumptions& rates) {
    if (to == Power::Off || from == to) return 0;
    double minutes = from == Power::Off ? rates.power_on_minutes + rates.power_off_minutes : 0;
    if (to == Power::Asleep) minutes += rates.sleep_minutes;
    return minutes;
}

bool volts_may_tell(const harness::Harness& harness, harness::Index network,
                    const diagnosis::Belief& belief) {
    return has_volts(harness.networks[network]) && belief.now.apart.empty() &&
           share_of(harness, belief, draws_a_line) >= short_share;
}

std::vector<Arrangement> arrangements(const ArrangementInput& input, std::size_t most_clips) {
    return Arranger(input, most_clips).run();
}

std::vector<Tips> readings_in(const Arrangement& arrangement, const Harness& harness, Index network) {
    if (arrangement.scan) return {};
    if (arrangement.power != Power::Off) return readings_in_volts(arrangement, harness, network);
    switch (arrangement.step) {
        case ArrangingStep::None:
        case ArrangingStep::PlugIn:
            break;
        case ArrangingStep::MoveClip:
            return continuity_from(harness, network, arrangement.clip);
        case ArrangingStep::Unplug:
            if (terminates(harness.parts[arrangement.part], network))
                return pairs_of_points(harness, network);
            std::vector<Tips> result;
            add_readings_of_part(harness, network, arrangement.part, result);
            return result;
    }
    return readings_as_it_stands(arrangement, harness, network);
}

}  // namespace halfsplit::advice
