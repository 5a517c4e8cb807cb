# Manual pages and completions, from the program's own model of its command line.
add_executable(halfsplit_guides src/packaging/guides.cpp)
target_include_directories(halfsplit_guides PRIVATE src)
target_link_libraries(halfsplit_guides PRIVATE halfsplit_library)
target_compile_options(halfsplit_guides PRIVATE ${HALFSPLIT_WARNINGS})
set(HALFSPLIT_GUIDES ${CMAKE_BINARY_DIR}/guides)
add_custom_command(OUTPUT ${HALFSPLIT_GUIDES}/man1/halfsplit.1 COMMAND halfsplit_guides ${HALFSPLIT_GUIDES}
                   DEPENDS halfsplit_guides VERBATIM)
add_custom_target(guides ALL DEPENDS ${HALFSPLIT_GUIDES}/man1/halfsplit.1)
