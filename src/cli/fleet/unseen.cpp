#include "cli/fleet/unseen.hpp"

#include "halfsplit/advice/survey.hpp"
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace halfsplit::cli {

namespace {

constexpr std::size_t most_parts = 400;
constexpr std::size_t most_named_faults = 12;

std::size_t parts_on(const harness::Harness& harness, harness::Index network) {
    return static_cast<std::size_t>(
        std::count_if(harness.parts.begin(), harness.parts.end(), [&](const harness::Part& part) {
            return part.network == network || part.kind == harness::PartKind::Connector ||
                   std::any_of(part.attachments.begin(), part.attachments.end(),
                               [&](const auto& attachment) { return attachment.network == network; });
        }));
}

// The names of all faults, and of those that read as a sound bus does, in order of the file.
struct Seen {
    std::set<std::string> all;
    std::vector<std::string> unseen;
};

Seen look_at(const harness::Harness& harness, harness::Index network) {
    diagnosis::Predictor predictor(harness, network);
    const advice::Ambiguity ambiguity = advice::ambiguity(predictor);
    std::set<std::size_t> sound;
    for (std::size_t i = 0; i < ambiguity.cases.size(); ++i) {
        if (ambiguity.cases[i].faults.empty()) sound.insert(ambiguity.group[i]);
    }
    Seen result;
    std::set<std::string> told;
    for (std::size_t i = 0; i < ambiguity.cases.size(); ++i) {
        if (ambiguity.cases[i].faults.empty()) continue;
        std::string name = diagnosis::name(harness, ambiguity.cases[i].faults.front());
        result.all.insert(name);
        if (sound.contains(ambiguity.group[i]) && told.insert(name).second)
            result.unseen.push_back(std::move(name));
    }
    return result;
}

}  // namespace

void note_unseen(const harness::Harness& harness, Collector& findings) {
    for (harness::Index network = 0; network < harness.networks.size(); ++network) {
        if (harness.networks[network].clip == harness::none || parts_on(harness, network) > most_parts)
            continue;
        const Seen seen = look_at(harness, network);
        if (seen.unseen.empty()) continue;
        std::vector<std::string> names = seen.unseen;
        if (names.size() > most_named_faults) {
            names.resize(most_named_faults);
            names.push_back(fmt::format("{} more", seen.unseen.size() - most_named_faults));
        }
        findings.note("unseen-fault", "/networks/" + std::to_string(network),
                      {fmt::format("no plain reading of {} tells {} of its {} faults from a sound bus: {}",
                                   harness.networks[network].id, seen.unseen.size(), seen.all.size(),
                                   join_words(names)),
                       "", "", "halfsplit survey says which further reading would tell, and what it costs"});
    }
}

}  // namespace halfsplit::cli
