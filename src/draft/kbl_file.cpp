#include "draft/kbl_file.hpp"

#include "halfsplit/base/text.hpp"
#include "halfsplit/draft/from_kbl.hpp"

#include "base/json_scan.hpp"
#include "draft/source.hpp"

#include <algorithm>
#include <array>

namespace halfsplit::draft {

namespace {

// Each opens or closes an element; a loom of 5,000 wires has about a million.
constexpr std::ptrdiff_t most_brackets = 8'000'000;

std::string declared_encoding(std::string_view text) {
    const std::string_view head = text.substr(0, std::min(text.find("?>"), std::size_t{200}));
    const std::size_t at = head.find("encoding=");
    if (at == std::string_view::npos || at + 10 >= head.size()) return {};
    const std::size_t end = head.find(head[at + 9], at + 10);
    return std::string(head.substr(at + 10, std::min(end, head.size()) - at - 10));
}

void say_encoding(std::string_view text, std::size_t offset, Collector& findings) {
    const bool wide = text.size() > 1 && (text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF");
    const std::string declared = declared_encoding(text);
    findings.error("xml-encoding", at_offset(wide ? 0 : offset),
                   {wide ? "the file is UTF-16" : "a byte that is not UTF-8",
                    "UTF-8" + (declared.empty() ? std::string() : "; the file says " + declared), "",
                    "save the file with the encoding UTF-8, and say so in its first line"});
}

std::string_view local_name(std::string_view name) {
    return name.substr(name.find(':') + 1);
}

bool has_doctype(const pugi::xml_document& document, const pugi::xml_parse_result& result) {
    const auto is_doctype = [](const pugi::xml_node& node) { return node.type() == pugi::node_doctype; };
    const auto nodes = document.children();
    return result.status == pugi::status_bad_doctype || std::any_of(nodes.begin(), nodes.end(), is_doctype);
}

}  // namespace

KblFile::KblFile(std::string_view text, Collector& findings) : mark_(byte_order_mark(text)) {
    if (load(text, findings) && check_kind(findings)) enter_ids(findings);
}

bool KblFile::load(std::string_view text, Collector& findings) {
    const std::size_t invalid = std::min(find_invalid_utf8(text), text.find('\0'));
    if (invalid != std::string_view::npos) {
        say_encoding(text, invalid, findings);
        return false;
    }
    if (std::count(text.begin(), text.end(), '<') > most_brackets) {
        findings.error("xml-size", "",
                       {"more than " + std::to_string(most_brackets / 2'000'000) + " million elements",
                        "one loom", "", "export the loom that is wanted alone"});
        return false;
    }
    const std::string_view body = text.substr(mark_);
    const pugi::xml_parse_result result = document_.load_buffer(
        body.data(), body.size(), pugi::parse_default | pugi::parse_doctype, pugi::encoding_utf8);
    if (has_doctype(document_, result)) {
        findings.error("xml-doctype", at_offset(mark_ + std::min(body.find("<!DOCTYPE"), body.size())),
                       {"a document type declaration, which could bring in entities",
                        "none: KBL needs no entities and none are read", "",
                        "delete it, and write what its entities stand for"});
        return false;
    }
    if (result.status == pugi::status_ok) return true;
    const bool cut =
        body.rfind(std::string("</") + document_.document_element().name()) == std::string_view::npos;
    findings.error("xml-syntax", at_offset(mark_ + static_cast<std::size_t>(result.offset)),
                   {std::string("this is not XML from here on: ") + lower(result.description()),
                    "elements that open and close one another", "",
                    cut ? "the file seems cut short: export it again" : "export the file again"});
    return false;
}

bool KblFile::check_kind(Collector& findings) const {
    const std::string_view name = root().name();
    if (local_name(name) != "KBL_container") {
        findings.error("not-kbl", at_offset(offset(root())),
                       {"the file is XML with the root \"" + std::string(name) + '"',
                        "a harness list with the root \"KBL_container\" (VDA 4964)", "",
                        "export the loom as KBL, or write a wire list (docs/reference/wire-data.md)"});
        return false;
    }
    if (!harness()) {
        findings.error("kbl-empty", at_offset(offset(root())),
                       {"the file has no Harness", "one Harness with its wires", "",
                        "export the loom with its connections, not the parts alone"});
        return false;
    }
    return true;
}

void KblFile::enter_ids(Collector& findings) {
    std::size_t depth = 1;
    pugi::xml_node node = root();
    while (node) {
        const std::string_view id = node.attribute("id").value();
        if (!id.empty() && !by_id_.emplace(id, node).second && twice_.insert(id).second) {
            findings.warning(
                "kbl-duplicate-id", at_offset(offset(node)),
                {"the id \"" + std::string(id) + "\" stands here again", "each id once", "",
                 "export the file again; what refers to it is not used", at_offset(offset(by_id_.at(id)))});
        }
        if (node.first_child()) {
            node = node.first_child();
            if (++depth > deepest_elements) {
                findings.error(
                    "xml-depth", at_offset(offset(node.parent())),
                    {"more than " + std::to_string(deepest_elements) + " elements inside one another",
                     "a KBL, which needs eight", "", "check where the file comes from"});
                return;
            }
            continue;
        }
        while (node && !node.next_sibling()) {
            node = node.parent();
            --depth;
        }
        if (node) node = node.next_sibling();
    }
}

pugi::xml_node KblFile::find(std::string_view id) const {
    const auto found = by_id_.find(id);
    return found == by_id_.end() || twice_.contains(id) ? pugi::xml_node() : found->second;
}

std::string KblFile::why_not(std::string_view id) const {
    if (id.empty()) return "nothing is named";
    return '"' + std::string(id) +
           (twice_.contains(id) ? "\" stands in the file twice" : "\" is not in the file");
}

std::size_t KblFile::offset(pugi::xml_node node) const {
    const std::ptrdiff_t at = node.offset_debug();
    return at < 0 ? 0 : mark_ + static_cast<std::size_t>(at);
}

std::string kbl_text(pugi::xml_node node, const char* child) {
    const std::string text = join(split_words(node.child(child).child_value()), " ");
    return text == "/NULL" ? std::string() : text;
}

std::vector<std::string> kbl_references(pugi::xml_node node, const char* child) {
    return split_words(node.child(child).child_value());
}

std::string kbl_name(pugi::xml_node node) {
    return std::string(node.name()) + ' ' + node.attribute("id").value();
}

}  // namespace halfsplit::draft
