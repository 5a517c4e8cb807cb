// What is wrong with an input, said for a person: what, where, what was expected, and what to do next.
#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

// A note fails nothing: it says what is worth knowing of an input that is sound.
enum class Severity { Note, Warning, Error };

std::string_view word(Severity severity);  // "note", "warning", "error"

// More findings of one file than these are counted, not told.
inline constexpr std::size_t most_findings = 1000;

// One-based line and column (column counts characters, not bytes); line 0 means "the file as a whole".
struct Location {
    std::string file;
    std::size_t line = 0;
    std::size_t column = 0;
};

// What may stand in place of the value (or name) that a finding is about, where nothing can get lost by it.
struct Mend {
    enum class Kind { None, Replace, Delete } kind = Kind::None;  // Delete: an entry of a list
    std::string text;                                             // Replace: as it stands in JSON
};

Mend replace_by(std::string text);              // none where the text is empty
Mend replace_by_name(const std::string& name);  // in quotes; the name needs no escapes

struct Finding {
    std::string id;  // stable, lower-case words joined by hyphens; listed in docs/reference/findings.md
    Severity severity = Severity::Error;
    Location location;
    std::string source_line;  // the line of the input itself, empty when there is none to show
    std::size_t caret = 0;    // one-based column of the caret in source_line; 0: location.column
    std::string message;      // what was found
    std::string expected;     // what would have been right; may be empty
    std::string nearest;      // nearest known name, or empty
    std::string next_step;    // what to do about it; may be empty
    Mend mend;                // mostly none
};

// The finding as text, without a line end at its end. Characters that could upset a terminal are shown as
// "?".
//     van.json:12:24: error: no part is named "M9" [unknown-part]
//       "stands_in_for": "M9",
//                        ^
//       Expected: a module or an option of this file.
//       Nearest known name: "M2".
//       Next: correct the name, or add the part.
std::string to_text(const Finding& finding);

// The texts of all, one after the other, joined by line ends.
std::string to_text(const std::vector<Finding>& findings);

bool any_error(const std::vector<Finding>& findings);

// Thrown where going on makes no sense. Carries every finding made so far; what() is their text.
class InputError : public std::runtime_error {
  public:
    explicit InputError(std::vector<Finding> findings);
    explicit InputError(Finding finding);
    const std::vector<Finding>& findings() const { return findings_; }

  private:
    std::vector<Finding> findings_;
};

}  // namespace halfsplit
