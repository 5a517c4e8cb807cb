// A quick yes for documents that are valid, which most are: a schema is taken apart once, and then nothing is
// allocated. Whatever is not plainly right is left to the full validator of schema.hpp.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include <memory>
#include <string_view>

namespace halfsplit {

class CompiledSchema {
  public:
    explicit CompiledSchema(const nlohmann::json& schema);
    ~CompiledSchema();
    CompiledSchema(CompiledSchema&&) noexcept;
    CompiledSchema& operator=(CompiledSchema&&) = delete;
    CompiledSchema(const CompiledSchema&) = delete;
    CompiledSchema& operator=(const CompiledSchema&) = delete;

    // True only for a valid document (`pattern` aside: see schema.hpp). False where it is not, or where the
    // schema has a keyword or the document a value that this does not know for certain. Linear; recurses as
    // deep as the schema.
    bool surely_accepts(const nlohmann::json& document) const;

  private:
    struct Parts;
    std::unique_ptr<const Parts> parts_;
};

// The published schema of that name, taken apart when it is first asked for. Safe from any thread.
const CompiledSchema& compiled_schema(std::string_view name);

}  // namespace halfsplit
