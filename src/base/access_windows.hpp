// Who may read and write a file, as Windows has it.
#pragma once

#include "base/calls_windows.hpp"

#include <memory>
#include <string>

namespace halfsplit {

// For a new file: its owner, and as everywhere the system and its administrators; nobody else. What stands
// for the permissions 0600. Ignored by a file system that has no owners, such as that of most USB sticks.
class OwnerAlone {
  public:
    OwnerAlone();
    ~OwnerAlone();
    OwnerAlone(const OwnerAlone&) = delete;
    OwnerAlone& operator=(const OwnerAlone&) = delete;
    // Valid as long as this; null where the system would not say who its user is.
    SECURITY_ATTRIBUTES* attributes() { return descriptor_ == nullptr ? nullptr : &attributes_; }

  private:
    PSECURITY_DESCRIPTOR descriptor_ = nullptr;
    SECURITY_ATTRIBUTES attributes_{};
};

// Gives the file `to` the access that the file `from` has. False where that fails; true where the file system
// has none to give.
bool copy_access(const std::wstring& from, const std::wstring& to);

}  // namespace halfsplit
