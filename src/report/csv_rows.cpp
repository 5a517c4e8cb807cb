#include "report/csv_rows.hpp"

#include "halfsplit/base/text.hpp"

#include <nlohmann/json.hpp>

namespace halfsplit::report {

namespace {

// In quotes where it has to be; a quote inside stands twice. A text that a spreadsheet would take for a
// formula gets an apostrophe in front, which makes it text there.
std::string csv_cell(const nlohmann::json& value) {
    if (!value.is_string()) return value.dump();
    std::string text = printable(value.get_ref<const std::string&>());
    if (text.find_first_of("=+-@") == 0) text.insert(0, 1, '\'');
    if (text.find_first_of(",\"") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

}  // namespace

std::string csv_rows(const std::vector<std::string_view>& columns, const std::vector<nlohmann::json>& rows) {
    std::string text;
    for (std::size_t i = 0; i < columns.size(); ++i) text += (i > 0 ? "," : "") + std::string(columns[i]);
    text += '\n';
    for (const nlohmann::json& row : rows) {
        for (std::size_t i = 0; i < columns.size(); ++i) {
            if (i > 0) text += ',';
            const auto value = row.find(std::string(columns[i]));
            if (value != row.end()) text += csv_cell(*value);
        }
        text += '\n';
    }
    return text;
}

}  // namespace halfsplit::report
