#include "diagnosis/ledger.hpp"

#include <algorithm>

namespace halfsplit::diagnosis {

namespace {

template <typename Item>
bool goes_on(const std::vector<Item>& from, const std::vector<Item>& now) {
    return from.size() <= now.size() && std::equal(from.begin(), from.end(), now.begin());
}

bool goes_on(const Evidence& from, const Evidence& now) {
    return from.comes_and_goes == now.comes_and_goes && goes_on(from.measured, now.measured) &&
           goes_on(from.looked, now.looked) && goes_on(from.scanned, now.scanned) &&
           goes_on(from.proved, now.proved) && goes_on(from.located, now.located);
}

template <typename Item>
void catch_up(std::vector<Item>& items, const std::vector<Item>& now) {
    items.insert(items.end(), now.begin() + static_cast<std::ptrdiff_t>(items.size()), now.end());
}

}  // namespace

std::size_t Ledger::Hash::operator()(std::uint64_t number) const {
    number *= 0x9e3779b97f4a7c15ULL;
    return number ^ (number >> 32U);
}

void Ledger::open(const Evidence& evidence, const harness::Assumptions& rates) {
    if (rates_ != rates || !goes_on(entered_, evidence)) {
        close();
        entered_ = {};
        entered_.comes_and_goes = evidence.comes_and_goes;
        rates_ = rates;
    }
    catch_up(entered_.measured, evidence.measured);
    catch_up(entered_.looked, evidence.looked);
    catch_up(entered_.scanned, evidence.scanned);
    catch_up(entered_.proved, evidence.proved);
    catch_up(entered_.located, evidence.located);
}

}  // namespace halfsplit::diagnosis
