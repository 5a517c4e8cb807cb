#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "cli/guide/completions.hpp"

namespace halfsplit::cli {

namespace {

std::string fish_files(const GuideValue& value) {
    if (value.endings.empty()) return "(__fish_complete_path)";
    return "(__halfsplit_files " + join(value.endings, " ") + ")";
}

// Behind the name of an option.
std::string fish_value(const GuideValue& value) {
    if (value.kind == GuideValue::Kind::None) return "";
    std::string words = join(value.choices, " ");
    if (value.kind == GuideValue::Kind::File) words = fish_files(value);
    return words.empty() ? " -x" : " -x -a " + shell_quoted(words);
}

std::string fish_option(const std::string& condition, const GuideOption& option) {
    std::string names;
    for (const std::string& name : option.names)
        names += name.rfind("--", 0) == 0 ? " -l " + name.substr(2) : " -s " + name.substr(1);
    return "complete -c halfsplit" + condition + names + fish_value(option.value) + " -d " +
           shell_quoted(option.description) + "\n";
}

}  // namespace

std::string fish_completion(const GuideProgram& program) {
    std::string text = R"(# Made from the program's own help: changes belong there.
function __halfsplit_files
    for ending in $argv
        __fish_complete_suffix $ending | string match -r -- '.*(?:/|'(string escape --style=regex -- $ending)')(?:\t.*)?$'
    end
end
complete -c halfsplit -f
)";
    for (const GuideOption& option : program.options) text += fish_option("", option);
    for (const GuideCommand& command : program.commands) {
        text += fmt::format("complete -c halfsplit -n __fish_use_subcommand -a {} -d {}\n", command.name,
                            shell_quoted(command.description));
        const std::string condition = " -n " + shell_quoted("__fish_seen_subcommand_from " + command.name);
        for (const GuideOption& option : command.options) {
            if (option.names.back() != "--help") text += fish_option(condition, option);
        }
        for (const GuideOption& one : command.positionals) {
            if (one.value.kind == GuideValue::Kind::File)
                text +=
                    "complete -c halfsplit" + condition + " -a " + shell_quoted(fish_files(one.value)) + "\n";
        }
    }
    return text;
}

}  // namespace halfsplit::cli
