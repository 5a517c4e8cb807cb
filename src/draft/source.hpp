// Where in a source the things stand that were found in it, or made from it.
#pragma once

#include "halfsplit/base/origins.hpp"

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::draft {

// A pointer that means an offset of the source.
std::string at_offset(std::size_t offset);

// Of a text that outlives this. Pointers are those of at_offset, or of a document made from the source.
class SourceOrigins : public Origins {
  public:
    SourceOrigins(std::string_view text, std::string file_name);
    // From now on the value at `pointer`, and all below it, stand at `offset`.
    void place(std::string pointer, std::size_t offset);

    const std::string& file_name() const override { return file_name_; }
    std::vector<Location> locate(const std::vector<Spot>& spots) const override;
    void quote(std::vector<Finding>& findings) const override;

  private:
    std::optional<std::size_t> offset_of(std::string_view pointer) const;

    std::string_view text_;
    std::string file_name_;
    std::map<std::string, std::size_t, std::less<>> places_;
};

}  // namespace halfsplit::draft
