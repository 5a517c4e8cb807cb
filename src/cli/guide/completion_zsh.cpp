#include <fmt/format.h>

#include "cli/guide/completions.hpp"

namespace halfsplit::cli {

namespace {

// Within a specification of _arguments.
std::string escaped(const std::string& text) {
    std::string result;
    for (const char c : text) {
        if (c == '[' || c == ']' || c == ':' || c == '\\') result += '\\';
        result += c;
    }
    return result;
}

// ":what:how", or nothing where the option takes no value.
std::string zsh_value(const GuideValue& value) {
    if (value.kind == GuideValue::Kind::None) return "";
    std::string how = " ";
    if (!value.choices.empty()) {
        how = "(";
        for (const std::string& choice : value.choices) how += (how == "(" ? "" : " ") + escaped(choice);
        how += ")";
    } else if (value.kind == GuideValue::Kind::File) {
        how = "_files";
        if (!value.endings.empty()) {
            std::string endings;
            for (const std::string& ending : value.endings)
                endings += (endings.empty() ? "" : "|") + ending.substr(1);
            // One in brackets would be taken for a property of files.
            how += value.endings.size() == 1 ? " -g \"*." + endings + "\"" : " -g \"*.(" + endings + ")\"";
        }
    }
    return fmt::format(":{}:{}", value.name.empty() ? "word" : value.name, how);
}

std::string zsh_option(const GuideOption& option) {
    std::string text;
    for (const std::string& name : option.names) {
        const bool takes = option.value.kind != GuideValue::Kind::None;
        const std::string equals = !takes ? "" : name.rfind("--", 0) == 0 ? "=" : "+";
        text += " \\\n                " +
                shell_quoted(fmt::format("{}{}{}[{}]{}", option.repeated ? "*" : "", name, equals,
                                         escaped(option.description), zsh_value(option.value)));
    }
    return text;
}

std::string zsh_command(const GuideProgram& program, const GuideCommand& command) {
    std::string text = "        " + command.name + ")\n            _arguments -s";
    for (const GuideOption& option : command.options) text += zsh_option(option);
    for (const GuideOption& option : program.options) {
        if (option.names.back() != "--help") text += zsh_option(option);
    }
    std::size_t place = 0;
    for (const GuideOption& one : command.positionals) {
        ++place;
        const std::string value = zsh_value(one.value);
        const std::string how = value.substr(value.find(':', 1));
        text += " \\\n                " +
                shell_quoted((one.repeated ? "*" : std::to_string(place)) + ":" + one.names.front() + how);
    }
    return text + "\n            ;;\n";
}

}  // namespace

std::string zsh_completion(const GuideProgram& program) {
    std::string text =
        "#compdef halfsplit\n# Made from the program's own help: changes belong there.\n_halfsplit() {\n"
        "    local context state state_descr line\n    typeset -A opt_args\n    local -a commands\n    "
        "commands=(\n";
    for (const GuideCommand& command : program.commands)
        text += "        " + shell_quoted(command.name + ":" + escaped(command.description)) + "\n";
    text += "    )\n    _arguments -C";
    for (const GuideOption& option : program.options) text += zsh_option(option);
    text +=
        " \\\n        '1: :->command' '*:: :->rest'\n    case $state in\n    command) _describe command "
        "commands ;;\n"
        "    rest)\n        case $words[1] in\n";
    for (const GuideCommand& command : program.commands) text += zsh_command(program, command);
    return text +
           "        esac\n        ;;\n    esac\n}\n"
           "# Sourced by hand, or found in the path of functions.\n"
           "if [ \"$funcstack[1]\" = _halfsplit ]; then _halfsplit \"$@\"; else compdef _halfsplit "
           "halfsplit; fi\n";
}

}  // namespace halfsplit::cli
