#include "halfsplit/cli/run.hpp"

#include "halfsplit/base/file_error.hpp"
#include "halfsplit/base/finding.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/job/log.hpp"

#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/shown_stream.hpp"

#include <algorithm>
#include <exception>
#include <new>
#include <ostream>
#include <sstream>

namespace halfsplit::cli {

namespace {

std::vector<std::string> command_names(const CLI::App& program) {
    std::vector<std::string> names;
    for (const CLI::App* command : program.get_subcommands({})) names.push_back(command->get_name());
    return names;
}

// The nearest command or option to what was not understood, if one is near.
std::string hint(const CLI::App& program, const std::vector<std::string>& arguments) {
    const std::vector<std::string> names = command_names(program);
    if (arguments.empty()) return "";
    const auto command = std::find(names.begin(), names.end(), arguments.front());
    if (command == names.end()) {
        const std::string near = nearest_name(arguments.front(), names);
        return near.empty() ? "The commands are " + join_words(names) + "." : "Did you mean '" + near + "'?";
    }
    std::vector<std::string> options;
    const CLI::App* chosen = program.get_subcommand(*command);
    for (const CLI::Option* option : chosen->get_options()) {
        for (const std::string& name : option->get_lnames()) options.push_back("--" + name);
    }
    for (const std::string& argument : arguments) {
        const std::string name = argument.substr(0, argument.find('='));
        if (name.rfind("--", 0) != 0 || std::find(options.begin(), options.end(), name) != options.end())
            continue;
        const std::string near = nearest_name(name, options);
        if (!near.empty()) return "Did you mean '" + near + "'?";
    }
    return "See 'halfsplit " + *command + " --help'.";
}

int report_parse_error(const CLI::App& program, const CLI::ParseError& error,
                       const std::vector<std::string>& arguments, Context& context) {
    const std::vector<std::string> names = command_names(program);
    const bool no_command = !arguments.empty() && arguments.front().rfind('-', 0) != 0 &&
                            std::find(names.begin(), names.end(), arguments.front()) == names.end();
    const std::string what = no_command ? "there is no command '" + arguments.front() + "'" : error.what();
    context.err << "halfsplit: " << what << '\n' << hint(program, arguments) << '\n';
    return Exit::unusable;
}

// No line wider than a terminal. What goes on does so under the description of an option.
std::string folded(const std::string& help) {
    constexpr std::size_t columns = 80, description = 30;
    std::string result;
    std::istringstream lines(help);
    for (std::string line; std::getline(lines, line);) {
        const bool is_option = line.rfind("  ", 0) == 0 && line.size() > description;
        result += wrap(line, columns, is_option ? description : 2) + '\n';
    }
    return result;
}

int run_chosen(const Chosen& chosen, Context& context) {
    try {
        return chosen();
    } catch (const InputError& error) {
        context.err << error.what() << '\n';
        return Exit::unusable;
    } catch (const FileError& error) {
        context.err << "halfsplit: " << error.what() << '\n';
        return Exit::unusable;
    } catch (const job::DamagedLog& error) {
        context.err << "halfsplit: " << error.what() << '\n';
        return Exit::unusable;
    } catch (const std::bad_alloc&) {
        context.err << "halfsplit: there is not enough memory for this. Close other programs and try again.\n"
                    << "What was entered before it is saved.\n";
        return Exit::unusable;
    } catch (const std::exception& error) {
        context.err << "halfsplit: this is a failure of the program itself: " << error.what() << '\n'
                    << "What was entered before it is saved. Please report it with the job file.\n";
        return Exit::own_failure;
    }
}

int run_shown(const std::vector<std::string>& arguments, Context& context) {
    CLI::App program;
    Chosen chosen;
    set_up(program, context, chosen);
    try {
        std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
        program.parse(reversed);
    } catch (const CLI::CallForHelp&) {
        const auto parsed = program.get_subcommands();
        context.out << folded(parsed.empty() ? program.help() : parsed.front()->help("halfsplit"));
        return Exit::fine;
    } catch (const CLI::CallForVersion&) {
        context.out << program.version() << '\n';
        return Exit::fine;
    } catch (const CLI::ParseError& error) {
        return report_parse_error(program, error, arguments, context);
    }
    const int result = run_chosen(chosen, context);
    context.out.flush();
    return result;
}

}  // namespace

int run(const std::vector<std::string>& arguments, Context& context) {
    ShownStream out(context.out, context.terminal.emphasis()), err(context.err, false);
    Context shown{out, err, context.files, context.clock, context.terminal, context.include};
    return run_shown(arguments, shown);
}

}  // namespace halfsplit::cli
