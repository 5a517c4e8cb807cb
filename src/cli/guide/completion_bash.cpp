#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "cli/guide/completions.hpp"

namespace halfsplit::cli {

namespace {

// Offers files with one of the endings, and folders. Names with spaces stay whole.
constexpr const char* bash_helpers = R"(# Made from the program's own help: changes belong there.
_halfsplit_files() {
    local IFS=$'\n' ending
    compopt -o filenames 2>/dev/null
    COMPREPLY=($(compgen -d -- "$cur"))
    if [ $# -eq 0 ]; then COMPREPLY=($(compgen -f -- "$cur")); fi
    for ending in "$@"; do COMPREPLY+=($(compgen -f -X "!*$ending" -- "$cur")); done
}

_halfsplit_words() {
    COMPREPLY=($(compgen -W "$1" -- "$cur"))
}

)";

// The line typed so far: `command`, `option` whose value is typed, `place` of the positional that is typed.
constexpr const char* bash_line = R"(_halfsplit() {
    local cur=${COMP_WORDS[COMP_CWORD]} command= option= last= place=0 word i
    COMPREPLY=()
    for ((i = 1; i < COMP_CWORD; ++i)); do
        word=${COMP_WORDS[i]}
        if [ "$word" = = ]; then
            option=$last
        elif [ -n "$option" ]; then
            option=
        elif [ "${word#-}" != "$word" ]; then
            last=$word
            if _halfsplit_takes_value "$command$word" && [ "${COMP_WORDS[i + 1]}" != = ]; then option=$word; fi
        elif [ -z "$command" ]; then
            command=$word
        else
            place=$((place + 1))
        fi
    done
    if [ "$cur" = = ]; then option=$last cur=; fi
)";

// What offers the value; a bare `:` where nobody can know it.
std::string bash_offer(const GuideValue& value) {
    if (!value.choices.empty()) return "_halfsplit_words " + shell_quoted(join(value.choices, " "));
    if (value.kind != GuideValue::Kind::File) return ":";
    return value.endings.empty() ? "_halfsplit_files" : "_halfsplit_files " + join(value.endings, " ");
}

std::string bash_pattern(const std::string& command, const GuideOption& option) {
    return command + join(option.names, "|" + command);
}

std::string bash_takes_value(const GuideProgram& program) {
    std::string text = "_halfsplit_takes_value() {\n    case $1 in\n";
    for (const GuideCommand& command : program.commands) {
        for (const GuideOption& option : command.options) {
            if (option.value.kind != GuideValue::Kind::None)
                text += fmt::format("        {}) return 0 ;;\n", bash_pattern(command.name, option));
        }
    }
    return text + "    esac\n    return 1\n}\n\n";
}

std::string option_names(const std::vector<GuideOption>& options) {
    std::vector<std::string> names;
    for (const GuideOption& option : options)
        names.insert(names.end(), option.names.begin(), option.names.end());
    return join(names, " ");
}

std::string bash_values(const GuideProgram& program) {
    std::string text = "    if [ -n \"$option\" ]; then\n        case $command$option in\n";
    for (const GuideCommand& command : program.commands) {
        for (const GuideOption& option : command.options) {
            if (option.value.kind != GuideValue::Kind::None)
                text += fmt::format("            {}) {} ;;\n", bash_pattern(command.name, option),
                                    bash_offer(option.value));
        }
    }
    return text + "        esac\n        return\n    fi\n";
}

std::string bash_names(const GuideProgram& program) {
    std::string text = "    if [ \"${cur#-}\" != \"$cur\" ]; then\n        case $command in\n";
    for (const GuideCommand& command : program.commands)
        text += fmt::format("            {}) _halfsplit_words '{} {}' ;;\n", command.name,
                            option_names(command.options), option_names(program.options));
    return text +
           fmt::format("            '') _halfsplit_words '{}' ;;\n        esac\n        return\n    fi\n",
                       option_names(program.options));
}

std::string bash_places(const GuideProgram& program) {
    std::vector<std::string> names;
    std::string text = "    case $command$place in\n";
    for (const GuideCommand& command : program.commands) {
        names.push_back(command.name);
        for (std::size_t place = 0; place < command.positionals.size(); ++place) {
            const GuideOption& one = command.positionals[place];
            text += fmt::format("        {}{}) {} ;;\n", command.name,
                                one.repeated ? "*" : std::to_string(place), bash_offer(one.value));
        }
    }
    return text + fmt::format("        0) _halfsplit_words '{}' ;;\n    esac\n", join(names, " "));
}

}  // namespace

std::string shell_quoted(const std::string& text) {
    std::string result = "'";
    for (const char c : text) result += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return result + "'";
}

std::string bash_completion(const GuideProgram& program) {
    return bash_helpers + bash_takes_value(program) + bash_line + bash_values(program) + bash_names(program) +
           bash_places(program) + "}\ncomplete -F _halfsplit halfsplit\n";
}

}  // namespace halfsplit::cli
