// What the evidence says for each explanation, added up and carried on from one belief to the next: of a job
// that is gone through record by record only what is new is entered. What is carried on is the same to the
// last bit as what is added up anew.
#pragma once

#include "halfsplit/diagnosis/belief.hpp"

#include "diagnosis/remembered.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <unordered_map>
#include <vector>

namespace halfsplit::diagnosis {

// The kinds of evidence. Each is added up by itself, so that it does not show in the last bit in which order
// they came.
enum class Kind : std::uint8_t { Distance, Look, Scan, Proof, Reading };
inline constexpr std::size_t kinds_of_evidence = 5;

struct Account {
    // By kind: how many were entered, and the logarithm of their likelihood if the fault always shows and if
    // it comes and goes.
    std::array<std::size_t, kinds_of_evidence> entered{};
    std::array<double, kinds_of_evidence> steady{}, wavering{};
    // Of single faults: what gains() of the readings add up to, and how many were entered there.
    double gain = 0;
    std::size_t gains_entered = 0;
    std::vector<Remembered::Row*> rows{};  // by group of readings; nothing: not asked for yet
};

class Ledger {
  public:
    // Closes all accounts unless the evidence goes on from what was entered, with the same rates.
    void open(const Evidence& evidence, const harness::Assumptions& rates);
    void close() { accounts_.clear(); }
    // By the number of an explanation. Stays where it is until accounts are closed.
    Account& of(std::uint64_t number) { return accounts_[number]; }

  private:
    struct Hash {
        std::size_t operator()(std::uint64_t number) const;
    };

    Evidence entered_;
    std::optional<harness::Assumptions> rates_;
    std::unordered_map<std::uint64_t, Account, Hash> accounts_;
};

}  // namespace halfsplit::diagnosis
