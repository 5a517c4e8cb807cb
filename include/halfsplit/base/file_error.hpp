// The one exception of file access.
#pragma once

#include <stdexcept>
#include <string>

namespace halfsplit {

class FileError : public std::runtime_error {
  public:
    enum class Kind { Missing, IsFolder, TooLarge, Locked, Denied, Failed };
    FileError(Kind kind, const std::string& message) : std::runtime_error(message), kind_(kind) {}
    Kind kind() const { return kind_; }

  private:
    Kind kind_;
};

}  // namespace halfsplit
