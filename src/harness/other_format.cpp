#include "harness/other_format.hpp"

#include <nlohmann/json.hpp>

#include <array>
#include <string>
#include <string_view>

namespace halfsplit::harness {

namespace {

struct Format {
    std::string_view name, what, next;
};

constexpr std::array<Format, 4> formats{
    {{"halfsplit-job", "a job", "halfsplit review tells what is in it"},
     {"halfsplit-library", "a library of places and covers", "name a harness that includes it"},
     {"halfsplit-baseline", "a baseline", "give it to check with --baseline"},
     {"halfsplit-check-settings", "a file of severities", "give it to check with --settings"}}};
constexpr Format matrix{"", "a table of faults against tests", "halfsplit survey --matrix plans it"};

// Null for a harness, or for what nobody knows.
const Format* format_of(const nlohmann::json& document) {
    if (!document.is_object()) return nullptr;
    const auto member = document.find("format");
    if (member == document.end())
        return document.contains("priors") && document.contains("tests") ? &matrix : nullptr;
    if (!member->is_string()) return nullptr;
    for (const Format& format : formats) {
        if (member->get_ref<const std::string&>() == format.name) return &format;
    }
    return nullptr;
}

}  // namespace

bool is_of_other_format(const nlohmann::json& document, Collector& findings) {
    const Format* format = format_of(document);
    if (format == nullptr) return false;
    findings.error("other-format", format == &matrix ? "" : "/format",
                   {"this is " + std::string(format->what) + ", not a harness",
                    "a file whose \"format\" is \"halfsplit-harness\"", "", std::string(format->next)});
    return true;
}

}  // namespace halfsplit::harness
