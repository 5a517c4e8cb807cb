#include "halfsplit/draft/from_kbl.hpp"

namespace halfsplit::draft {

bool looks_like_xml(std::string_view text) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
    const std::size_t first = text.find_first_not_of(" \t\r\n");
    if (first == std::string_view::npos) return false;
    // UTF-16, little end or big end first, is told as what it is.
    return text[first] == '<' || text.substr(0, 4) == std::string_view("\xFF\xFE<\0", 4) ||
           text.substr(0, 4) == std::string_view("\xFE\xFF\0<", 4);
}

}  // namespace halfsplit::draft
