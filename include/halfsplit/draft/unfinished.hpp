// A sheet that is still being written, line by line: how far it has come, for whoever asks for the next one.
#pragma once

#include "halfsplit/draft/wire_sheet.hpp"
#include "halfsplit/harness/harness.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::draft {

struct Unfinished {
    std::vector<Finding> errors;  // of its words; what is not joined yet is none
    std::string bus;              // id of the last one; empty: none begun
    bool single_line = false;
    bool begun = false;            // whether the last bus has a thing where it begins
    std::string here;              // "X1.b 4/5", "S1": where the next wire begins; empty: nowhere
    std::string colours, section;  // carried on; empty: not said
    std::string place;             // "driver/kick"; empty: not said
    std::vector<std::string> things, places, covers, options;  // names, for completion
    // As far as it goes; empty where it does not make one yet.
    std::optional<harness::Harness> harness;
};

// Linear in the sheet but for the checks of the harness.
Unfinished read_unfinished(std::string_view text, const std::string& file_name, Files& files,
                           const DraftRules& rules = {});

// What "module", "connector"... a thing with that name and so many pairs of cavities is taken for, and
// whether that is a guess.
struct Taken {
    std::string word;
    bool guessed = false;
};
Taken taken_for(const std::string& name, std::size_t pairs);

}  // namespace halfsplit::draft
