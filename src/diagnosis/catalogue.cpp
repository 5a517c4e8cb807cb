#include "diagnosis/catalogue.hpp"

#include "halfsplit/diagnosis/prior.hpp"

#include <map>
#include <tuple>

namespace halfsplit::diagnosis {

Catalogue::Catalogue(const harness::Harness& harness, const electrics::Assembly& assembly)
    : faults(all_faults(harness, assembly)), weights(fault_weights(harness, faults)), loops(assembly) {
    std::map<std::tuple<harness::Index, Mode, Lines, harness::Index, harness::Index>, std::size_t> first;
    like_first.reserve(faults.size());
    for (std::size_t f = 0; f < faults.size(); ++f) {
        const Fault& fault = faults[f];
        like_first.push_back(
            first.try_emplace({fault.part, fault.mode, fault.lines, fault.terminal, fault.run}, f)
                .first->second);
        quiet.push_back(loops.quiet(fault) ? 1 : 0);
        any_quiet = any_quiet || quiet.back() != 0;
    }
}

}  // namespace halfsplit::diagnosis
