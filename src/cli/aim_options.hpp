// The options that say what a plan is to be best at.
#pragma once

#include "halfsplit/advice/aim.hpp"

#include <CLI/CLI.hpp>

#include <limits>
#include <optional>
#include <string>

namespace halfsplit::cli {

struct AimOptions {
    std::string least, until;
    std::optional<double> worst_at_most;

    void add_to(CLI::App& command) {
        command.add_option("--least", least, "minutes to keep least; expected by default")
            ->check(CLI::IsMember({"expected", "worst"}));
        command.add_option("--at-most", worst_at_most, "minutes of the worst case, where a plan can")
            ->check(CLI::Range(0.0, 1e6))
            ->option_text("MINUTES");
        command.add_option("--until", until, "where the hunt ends; laid bare by default")
            ->check(CLI::IsMember({"bare", "isolated"}));
    }

    // None where nothing was said.
    std::optional<advice::Aim> aim() const {
        if (least.empty() && until.empty() && !worst_at_most) return std::nullopt;
        return advice::Aim{least == "worst", worst_at_most.value_or(std::numeric_limits<double>::infinity()),
                           until == "isolated"};
    }
};

}  // namespace halfsplit::cli
