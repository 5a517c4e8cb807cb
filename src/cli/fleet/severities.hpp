// Which severity each finding is shown with: as set on the command line or in a settings file.
#pragma once

#include "halfsplit/base/files.hpp"
#include "halfsplit/base/finding.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace halfsplit::cli {

class Severities {
  public:
    // `settings`: path of a settings file (schema docs/schema/check-settings.schema.json), or empty. `words`:
    // "ID=error", "warning", "note" or "off", the later before the earlier and before the file. Throws
    // InputError with what is wrong.
    static Severities read(Files& files, const std::string& settings, const std::vector<std::string>& words);

    // Empty: not shown. Findings about a file that cannot be read keep their own.
    std::optional<Severity> of(const Finding& finding) const;

  private:
    void set(const std::string& id, const std::string& level, const std::string& where);
    std::map<std::string, std::optional<Severity>> set_;
};

}  // namespace halfsplit::cli
