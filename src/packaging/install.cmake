# What `cmake --install` puts where: the program with all that goes with it, and the library for others to link.
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)
set(HALFSPLIT_DATA ${CMAKE_INSTALL_DATADIR}/halfsplit)

install(TARGETS halfsplit COMPONENT program)
install(DIRECTORY ${HALFSPLIT_GUIDES}/man1 DESTINATION ${CMAKE_INSTALL_MANDIR} COMPONENT program)
install(FILES ${HALFSPLIT_GUIDES}/bash/halfsplit DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions
        COMPONENT program)
install(FILES ${HALFSPLIT_GUIDES}/zsh/_halfsplit DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/site-functions COMPONENT program)
install(FILES ${HALFSPLIT_GUIDES}/fish/halfsplit.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d
        COMPONENT program)

install(FILES README.md DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
install(DIRECTORY docs DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program
        FILES_MATCHING PATTERN "*.md" PATTERN "*.svg" PATTERN "*.png" PATTERN schema EXCLUDE)
install(DIRECTORY docs/schema DESTINATION ${HALFSPLIT_DATA} COMPONENT program)
install(DIRECTORY data/demo DESTINATION ${HALFSPLIT_DATA} COMPONENT program PATTERN run.sh EXCLUDE
        PATTERN "*.sh" PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
# The documents name both by their place in the source: so they are found there as well.
install(
  CODE "
  set(documents \"\$ENV{DESTDIR}\${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_DOCDIR}\")
  file(RELATIVE_PATH data \"/${CMAKE_INSTALL_DOCDIR}/docs\" \"/${HALFSPLIT_DATA}\")
  file(MAKE_DIRECTORY \"\${documents}/data\")
  file(CREATE_LINK \"\${data}/schema\" \"\${documents}/docs/schema\" SYMBOLIC)
  file(CREATE_LINK \"\${data}/demo\" \"\${documents}/data/demo\" SYMBOLIC)"
  COMPONENT program)

set(HALFSPLIT_PACKAGE ${CMAKE_INSTALL_LIBDIR}/cmake/halfsplit)
install(TARGETS halfsplit_library EXPORT halfsplit COMPONENT library)
install(DIRECTORY include/halfsplit DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} COMPONENT library)
install(EXPORT halfsplit NAMESPACE halfsplit:: FILE halfsplitTargets.cmake DESTINATION ${HALFSPLIT_PACKAGE}
        COMPONENT library)
write_basic_package_version_file(${HALFSPLIT_GENERATED}/halfsplitConfigVersion.cmake COMPATIBILITY SameMinorVersion)
configure_file(src/packaging/halfsplitConfig.cmake ${HALFSPLIT_GENERATED}/halfsplitConfig.cmake @ONLY)
install(FILES ${HALFSPLIT_GENERATED}/halfsplitConfig.cmake ${HALFSPLIT_GENERATED}/halfsplitConfigVersion.cmake
        DESTINATION ${HALFSPLIT_PACKAGE} COMPONENT library)
