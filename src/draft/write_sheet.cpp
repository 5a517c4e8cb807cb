#include "halfsplit/draft/wire_sheet.hpp"
namespace halfsplit::draft {
WrittenSheet write_sheet(std::string_view, const std::string&) {
    return {};
}
}  // namespace halfsplit::draft
