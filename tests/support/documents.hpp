// The documents of the project: README.md, DEVELOPERS.md, the demo's own page, and every page of docs/.
#pragma once

#include <string>
#include <vector>

namespace halfsplit::test {

// By their path from the top of the project, sorted.
std::vector<std::string> document_paths();

// The lines of a document outside its blocks of code.
std::vector<std::string> prose_of(const std::string& path);

}  // namespace halfsplit::test
