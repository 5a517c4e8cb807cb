#include "advice/hindsight/corrections.hpp"

namespace halfsplit::advice {

std::vector<Correction> corrections(const std::vector<job::Record>& records,
                                    const std::vector<job::Resolved>& resolved) {
    std::vector<Correction> result(records.size());
    for (std::size_t i = 0; i < records.size(); ++i) {
        const auto target = resolved[i].counts ? job::target_of(records, i) : std::nullopt;
        if (!target) continue;
        const bool undo = std::holds_alternative<job::Undo>(records[i].event.body);
        (undo ? result[*target].undone_by : result[*target].amended_by) = records[i].sequence;
    }
    for (std::size_t i = 0; i < records.size(); ++i) {
        if (resolved[i].counts || !job::is_implied(records[i].event) || result[i].undone_by != 0) continue;
        result[i] = result[job::owner_of(records, i)];
    }
    return result;
}

}  // namespace halfsplit::advice
