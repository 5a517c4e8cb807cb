// What is done with wire data, whatever it was read from.
#pragma once

#include "halfsplit/draft/from_loom.hpp"
#include "halfsplit/draft/loom.hpp"
#include "halfsplit/draft/signals.hpp"
#include "halfsplit/harness/read.hpp"

#include "fuzz/fuzz.hpp"

namespace halfsplit::fuzz {

inline void draft_network(const draft::Loom& loom, const std::string& choice, std::string_view text) {
    const draft::Drafted drafted = draft::draft_network(loom, choice, text, "fuzz");
    (void)to_text(drafted.findings);
    require(drafted.json.empty() == any_error(drafted.findings), "a harness file, or errors that say why");
    if (!drafted.json.empty())
        require(harness::read_harness(drafted.json, "fuzz.json").harness.has_value(),
                "what is drafted is sound");
}

inline void draft_networks(const draft::LoomRead& read, std::string_view text) {
    constexpr std::size_t most_tried = 3;
    require(read.loom.has_value() != any_error(read.findings), "a loom, or errors that say why");
    (void)to_text(read.findings);
    if (!read.loom) return;
    const draft::Signals signals = draft::signals(*read.loom);
    (void)draft::to_text(signals, 40);
    for (std::size_t i = 0; i < std::min(signals.pairs.size(), most_tried); ++i)
        draft_network(*read.loom, "bus=" + signals.pairs[i][0] + "," + signals.pairs[i][1], text);
    for (std::size_t i = 0; i < std::min(signals.all.size(), most_tried); ++i)
        draft_network(*read.loom, signals.all[i].name, text);
}

}  // namespace halfsplit::fuzz
