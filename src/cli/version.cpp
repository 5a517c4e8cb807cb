#include "halfsplit/draft/from_kbl.hpp"

#include "cli/commands.hpp"

namespace halfsplit::cli {

namespace {

std::string compiler() {
#if defined(__clang__)
    return "clang " + std::to_string(__clang_major__) + "." + std::to_string(__clang_minor__) + "." +
           std::to_string(__clang_patchlevel__);
#elif defined(__GNUC__)
    return "g++ " + std::to_string(__GNUC__) + "." + std::to_string(__GNUC_MINOR__) + "." +
           std::to_string(__GNUC_PATCHLEVEL__);
#else
    return "unknown compiler";
#endif
}

std::string part(const std::string& name, const std::string& library) {
    return '\n' + name + ": " + (library.empty() ? "left out of this build" : library);
}

}  // namespace

std::string version_text() {
    const std::string build_type = HALFSPLIT_BUILD_TYPE;
    return std::string("halfsplit ") + HALFSPLIT_VERSION +
           "\nbuild: " + (build_type.empty() || build_type == "None" ? "no type" : build_type) + ", " +
           compiler() + (HALFSPLIT_HARDENED ? ", hardened" : "") + part("line editing", line_editor()) +
           part("harness lists (KBL)", draft::kbl_reader());
}

}  // namespace halfsplit::cli
