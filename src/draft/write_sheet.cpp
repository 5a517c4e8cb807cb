#include "halfsplit/base/text.hpp"
#include "halfsplit/draft/wire_sheet.hpp"
#include "halfsplit/harness/read.hpp"

#include <fmt/format.h>

#include "draft/differences.hpp"
#include "draft/writing.hpp"

#include <algorithm>
#include <iterator>

namespace halfsplit::draft {

namespace {

std::string colour_of_circuit(const Json& wire) {
    const Json colour = wire.value("colour", Json::object());
    return colour_word({colour.value("base", ""), colour.value("stripe", "")});
}

std::string circuit_text(const Json& wire) {
    return fmt::format("{} {} {}", wire.value("cavity", ""), colour_of_circuit(wire),
                       one_line(wire.value("circuit", "")));
}

// Whether the wire after this one is the same circuit in the other half: the sheet says both at once.
bool in_both_halves(const Json& wires, std::size_t index) {
    if (index + 1 == wires.size() || wires[index].value("half", "") != "a") return false;
    return wires[index + 1].value("half", "") == "b" &&
           circuit_text(wires[index]) == circuit_text(wires[index + 1]);
}

// Other circuits' wires in the order of the file: as many on a line as fit.
std::string others_text(const Json& connector) {
    constexpr std::size_t fits = 70;
    const Json wires = connector.value("other_wires", Json::array());
    std::string text, line, start;
    for (std::size_t index = 0; index < wires.size(); ++index) {
        const bool both = in_both_halves(wires, index);
        const std::string half = both ? "" : "." + wires[index].value("half", "");
        const std::string begins = fmt::format("other {}{} ", connector.value("id", ""), half);
        const std::string one = circuit_text(wires[index]);
        if (begins == start && line.size() + one.size() <= fits) {
            line += "; " + one;
        } else {
            text += line.empty() ? line : line + "\n";
            start = begins;
            line = begins + one;
        }
        if (both) ++index;
    }
    return text + (line.empty() ? line : line + "\n");
}

std::string text_of(const Json& file) {
    std::string text = surroundings_text(file);
    std::set<std::string> known;
    for (std::size_t network = 0; network < file["networks"].size(); ++network)
        text += BusWriter(file, network, known).text();
    for (const Json& connector : file.value("connectors", Json::array())) text += others_text(connector);
    return text;
}

}  // namespace

WrittenSheet write_sheet(std::string_view harness, const std::string& file_name, Files& files,
                         const harness::IncludeRules& rules) {
    WrittenSheet written;
    harness::ReadResult read = harness::read_harness_text(files, harness, file_name, nullptr, rules);
    std::copy_if(read.findings.begin(), read.findings.end(), std::back_inserter(written.findings),
                 [](const Finding& finding) { return finding.severity != Severity::Note; });
    if (!read.harness) return written;
    const Json file = Json::parse(harness);
    written.text = text_of(file);
    const Drafted again = draft_sheet(written.text, file_name, files, {.whole = false, .include = rules});
    if (again.json.empty()) {
        written.left_out.push_back("the sheet as a whole cannot be read back:");
        for (const Finding& finding : again.findings) {
            if (finding.severity != Severity::Error) continue;
            written.left_out.push_back(fmt::format("line {} of the sheet: {} [{}]", finding.location.line,
                                                   finding.message, finding.id));
        }
    } else {
        written.left_out = differences(file, Json::parse(again.json));
    }
    return written;
}

}  // namespace halfsplit::draft
