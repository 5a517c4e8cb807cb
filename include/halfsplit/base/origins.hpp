// Where the values of a document stand in what a person wrote: a JSON text, several that include one another,
// or another notation that a document was made from. Used on the error path only.
#pragma once

#include "halfsplit/base/json_text.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

class Origins {
  public:
    virtual ~Origins() = default;
    // What the document as a whole is called in findings.
    virtual const std::string& file_name() const = 0;
    // One place for each spot, in that order. What is not known has the place of its nearest known parent.
    virtual std::vector<Location> locate(const std::vector<Spot>& spots) const = 0;
    // Sets source_line and caret of each finding that has a line.
    virtual void quote(std::vector<Finding>& findings) const = 0;
};

// A text that parse_json accepted and that outlives this.
class JsonOrigins : public Origins {
  public:
    JsonOrigins(std::string_view text, std::string file_name);
    const std::string& file_name() const override { return file_name_; }
    std::vector<Location> locate(const std::vector<Spot>& spots) const override;
    void quote(std::vector<Finding>& findings) const override;

  private:
    std::string_view text_;
    std::string file_name_;
};

}  // namespace halfsplit
