// The options that every command on a job shares.
#pragma once

#include "halfsplit/session/session.hpp"

#include <CLI/CLI.hpp>

#include <cstddef>

namespace halfsplit::cli {

struct JobOptions {
    session::Opening opening;
    std::size_t columns = 0;  // 0: the terminal's

    void add_to(CLI::App& command) {
        command.add_option("HARNESS", opening.harness_path, "harness file (JSON)")
            ->type_name(".json")
            ->required();
        command.add_option("--job", opening.job_path, "job log; made when it is not there")
            ->type_name("FILE.job")
            ->required();
        command.add_option("--network", opening.network, "which bus of the file (default: the first)");
        command.add_option("--columns", columns, "width of the text (default: the terminal's)")
            ->check(CLI::Range(30, 400));
    }

    std::size_t width(std::size_t of_terminal) const {
        const std::size_t wanted = columns > 0 ? columns : of_terminal;
        return wanted < 30 ? 30 : wanted;
    }
};

}  // namespace halfsplit::cli
