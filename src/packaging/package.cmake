# The Debian package of the program: `cpack` in a folder configured as tests/package.sh does.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME halfsplit)
set(CPACK_PACKAGE_CONTACT "halfsplit authors <authors@halfsplit.invalid>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENTS_ALL program)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE
    WORLD_READ WORLD_EXECUTE)
set(CPACK_PRE_BUILD_SCRIPTS ${CMAKE_SOURCE_DIR}/src/packaging/debian/finish.cmake)
set(CPACK_HALFSPLIT_DEBIAN ${CMAKE_SOURCE_DIR}/src/packaging/debian)

set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME halfsplit)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_DESCRIPTION
    "find the break in a vehicle's data-bus wiring in the least labour
An independent vehicle electrician is called to a vehicle whose modules have
fallen silent: somewhere in the chain of wire pairs, connectors, splices,
bridge plugs and modules of one bus there is an open, a bad joint or a short,
and every place costs minutes or hours to reach.

halfsplit knows the harness as a graph and what each place costs given what is
already open. It says where to probe next and why, takes each reading, keeps a
log, and ends with the fault proven and every panel back on.")
include(CPack)
