# What the zip for Windows holds: `cpack` in a folder configured as tests/windows.sh does. Folders are those of the
# source, so that what the documents name is where they say, seen from the program.
install(TARGETS halfsplit DESTINATION . COMPONENT program)
install(FILES README.md DESTINATION . COMPONENT program)
install(DIRECTORY docs DESTINATION . COMPONENT program
        FILES_MATCHING PATTERN "*.md" PATTERN "*.svg" PATTERN "*.png" PATTERN "*.json")
install(DIRECTORY data/demo DESTINATION data COMPONENT program PATTERN run.sh EXCLUDE)
install(FILES src/packaging/debian/copyright DESTINATION . RENAME COPYRIGHT.txt COMPONENT program)
# The notices of what is linked in, as Debian has them.
foreach(package libcli11-dev nlohmann-json3-dev libvalijson-dev libeigen3-dev libfmt-dev mingw-w64-common
                gcc-mingw-w64-base)
  install(FILES /usr/share/doc/${package}/copyright DESTINATION notices RENAME ${package}.txt COMPONENT program)
endforeach()

set(CPACK_GENERATOR ZIP)
set(CPACK_PACKAGE_FILE_NAME halfsplit-${PROJECT_VERSION}-windows-x86_64)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program)
include(CPack)
