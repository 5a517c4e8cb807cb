#include "halfsplit/base/text.hpp"
#include "halfsplit/cli/terminal.hpp"

#include <istream>
#include <ostream>

namespace halfsplit::cli {

std::optional<std::string> PlainTerminal::read_line(const std::string& prompt,
                                                    const std::vector<std::string>&) {
    out_ << prompt << std::flush;
    std::string line;
    if (!std::getline(in_, line)) {
        out_ << '\n';
        return std::nullopt;
    }
    if (!line.empty() && line.back() == '\r') line.pop_back();
    out_ << printable_lines(line) << '\n';
    return line;
}

}  // namespace halfsplit::cli
