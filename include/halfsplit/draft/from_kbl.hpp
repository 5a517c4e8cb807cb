// Wires from a harness list in KBL (VDA recommendation 4964, versions 2.3 and 2.4; the schema of 2.4 SR-1 was
// read).
#pragma once

#include "halfsplit/draft/loom.hpp"

#include <string>
#include <string_view>

namespace halfsplit::draft {

// Deepest nesting accepted; a KBL needs eight.
inline constexpr std::size_t deepest_elements = 64;

// Whether the text is XML at all: its first character that is no blank is "<".
bool looks_like_xml(std::string_view text);

// Never throws on bad input. Memory some ten times the text, which Files::read bounds. Every conductor of the
// file is in the result, those that cannot be used with the reason. Entities beyond the five of XML are not
// read: a document type declaration is refused.
// Findings: xml-encoding, xml-syntax, xml-doctype, xml-depth, not-kbl, kbl-empty, kbl-duplicate-id.
// A build without KBL (docs/how-to/install.md) gives the one finding kbl-left-out, whatever the text.
LoomRead read_kbl(std::string_view text, const std::string& file_name);

// The library that reads it, with its version; empty in a build without it.
std::string kbl_reader();

}  // namespace halfsplit::draft
