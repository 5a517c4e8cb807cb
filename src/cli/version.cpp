#include "cli/commands.hpp"

#include <pugixml.hpp>

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

}  // namespace

std::string version_text() {
    const std::string build_type = HALFSPLIT_BUILD_TYPE;
    // 1.13 is PUGIXML_VERSION 1130.
    const std::string xml =
        std::to_string(PUGIXML_VERSION / 1000) + "." + std::to_string(PUGIXML_VERSION / 10 % 100);
    return std::string("halfsplit ") + HALFSPLIT_VERSION +
           "\nbuild: " + (build_type.empty() || build_type == "None" ? "no type" : build_type) + ", " +
           compiler() + (HALFSPLIT_HARDENED ? ", hardened" : "") +
           "\nline editing: libedit\nharness lists (KBL): pugixml " + xml;
}

}  // namespace halfsplit::cli
