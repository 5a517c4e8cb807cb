#include "cli/guide/model.hpp"

#include "halfsplit/cli/run.hpp"
#include "halfsplit/report/explanation.hpp"

#include <fmt/format.h>

#include "cli/commands.hpp"

#include <regex>
#include <sstream>

namespace halfsplit::cli {

namespace {

std::vector<std::string> guide_parts(const std::string& text, char between) {
    std::vector<std::string> parts;
    std::istringstream stream(text);
    for (std::string part; std::getline(stream, part, between);) {
        const auto start = part.find_first_not_of(' ');
        if (start != std::string::npos) parts.push_back(part.substr(start));
    }
    return parts;
}

GuideValue guide_file(const std::string& type) {
    GuideValue value{GuideValue::Kind::File, "FILE", {}, {}, {}};
    for (const std::string& part : guide_parts(type, '|')) {
        if (const auto dot = part.find('.'); dot != std::string::npos)
            value.endings.push_back(part.substr(dot));
    }
    return value;
}

GuideValue guide_choice(const std::string& inside, char between) {
    return {GuideValue::Kind::Choice, {}, {}, guide_parts(inside, between), {}};
}

std::vector<std::string> guide_ids() {
    std::vector<std::string> ids;
    for (const report::Explanation& one : report::explanations()) ids.push_back(one.id);
    return ids;
}

// "TEXT", "UINT:INT in [30 - 400]", "TEXT:{a,b}", "FILE.job", ".wires|.csv".
GuideValue guide_value(const std::string& type) {
    static const std::regex range(R"(.* in \[(\S+) - (\S+)\])");
    std::smatch match;
    if (type.rfind("FILE", 0) == 0 || type.rfind('.', 0) == 0) return guide_file(type);
    if (const auto open = type.find('{'); open != std::string::npos)
        return guide_choice(type.substr(open + 1, type.rfind('}') - open - 1), ',');
    if (std::regex_match(type, match, range))
        return {GuideValue::Kind::Number, "N", match.str(1) + " to " + match.str(2), {}, {}};
    if (type == "UINT" || type == "INT" || type == "FLOAT")
        return {GuideValue::Kind::Number, "N", {}, {}, {}};
    if (type == "ID") return {GuideValue::Kind::Text, "ID", {}, guide_ids(), {}};
    return {GuideValue::Kind::Text, "TEXT", {}, {}, {}};
}

GuideOption guide_option(const CLI::Option& option) {
    GuideOption result;
    result.description = option.get_description();
    result.required = option.get_required();
    result.repeated = option.get_items_expected_max() > 1;
    if (option.get_positional() && option.get_lnames().empty() && option.get_snames().empty()) {
        result.names.push_back(option.get_name(true));
    }
    for (const std::string& name : option.get_snames()) result.names.push_back("-" + name);
    for (const std::string& name : option.get_lnames()) result.names.push_back("--" + name);
    if (option.get_items_expected_max() > 0) result.value = guide_value(option.get_type_name());
    return result;
}

void add_guide_options(const CLI::App& app, std::vector<GuideOption>& positionals,
                       std::vector<GuideOption>& options) {
    for (const CLI::Option* option : app.get_options()) {
        if (option->get_group().empty()) continue;
        (option->get_positional() ? positionals : options).push_back(guide_option(*option));
    }
}

// The text below the options: what stands indented is an example, "Exit code: 0 sound, 1 ..." the codes. A
// comma ends one code where a digit follows.
void add_guide_footer(const std::string& footer, GuideCommand& command) {
    static const std::regex exit(R"(Exit codes?: (.*)\.)"), next_code(R"(, (?=\d ))"),
        title(R"( *Examples:$)");
    std::istringstream lines(footer);
    for (std::string line; std::getline(lines, line);) {
        std::smatch match;
        if (line.rfind("  ", 0) == 0) {
            command.examples.push_back(line.substr(2));
        } else if (std::regex_match(line, match, exit)) {
            const std::string codes = match[1];
            command.exits.assign(std::sregex_token_iterator(codes.begin(), codes.end(), next_code, -1), {});
        } else {
            const std::string note = std::regex_replace(line, title, "");
            if (!note.empty()) command.notes.push_back(note);
        }
    }
}

GuideCommand guide_command(const CLI::App& app) {
    GuideCommand command;
    command.name = app.get_name();
    command.description = app.get_description();
    add_guide_options(app, command.positionals, command.options);
    add_guide_footer(app.get_footer(), command);
    return command;
}

}  // namespace

GuideProgram guide_model(const CLI::App& program) {
    GuideProgram model;
    GuideCommand of_all = guide_command(program);
    model.name = of_all.name;
    model.description = of_all.description;
    model.version = HALFSPLIT_VERSION;
    model.options = std::move(of_all.options);
    model.exits = std::move(of_all.exits);
    for (const CLI::App* command : program.get_subcommands({}))
        model.commands.push_back(guide_command(*command));
    return model;
}

GuideProgram guide_model() {
    std::istringstream in;
    std::ostringstream out;
    PlainTerminal terminal(in, out, 80);
    Context context{out, out, system_files(), system_clock(), terminal};
    Chosen chosen;
    CLI::App program;
    set_up(program, context, chosen);
    return guide_model(program);
}

}  // namespace halfsplit::cli
